// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "support/test_folder.h"

namespace ringfall::terminal {

/// What a run of the `ringfall` program gave.
struct Ran {
  int status = -1;
  std::string out;
  std::string error;
};

/// Runs the built program with these arguments (quoted for the shell; `environment` like "NO_COLOR=1" goes before it).
Ran run_program(const std::vector<std::string>& arguments, const std::string& environment = {});

/// The demo's folder, written once for all tests of this program.
const std::string& demo_folder();

std::string file_text(const std::string& path);

}  // namespace ringfall::terminal
