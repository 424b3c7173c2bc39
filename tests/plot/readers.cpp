// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/readers.h"


#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>

namespace ringfall::plot {

Ran run(const std::string& command) {
  Ran ran;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return ran;
  std::array<char, 4096> buffer{};
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), pipe)) ran.output.append(buffer.data(), n);
  ran.status = pclose(pipe);
  return ran;
}

std::string bytes_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace ringfall::plot
