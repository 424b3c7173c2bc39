// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/find_program.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>

namespace ringfall::audio {

std::optional<std::string> find_program(std::string_view name, std::string_view folders) {
  while (!folders.empty()) {
    const std::size_t colon = folders.find(':');
    const std::string_view folder = folders.substr(0, colon);
    folders = colon == std::string_view::npos ? std::string_view{} : folders.substr(colon + 1);
    if (!folder.starts_with('/')) continue;
    const std::string full = std::string(folder) + "/" + std::string(name);
    struct stat status {};
    if (::stat(full.c_str(), &status) == 0 && S_ISREG(status.st_mode) && ::access(full.c_str(), X_OK) == 0) return full;
  }
  return std::nullopt;
}

std::string environment_path() {
  const char* path = std::getenv("PATH");
  return path == nullptr ? std::string() : std::string(path);
}

}  // namespace ringfall::audio
