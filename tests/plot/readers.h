// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>

namespace ringfall::plot {

/// Output and exit status of a command; its words must not hold quotes.
struct Ran {
  int status = -1;
  std::string output;
};
Ran run(const std::string& command);

std::string bytes_of(const std::filesystem::path& path);

}  // namespace ringfall::plot
