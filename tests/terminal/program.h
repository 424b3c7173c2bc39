// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace ringfall::terminal {

/// What a run of the `ringfall` program gave.
struct Ran {
  int status = -1;
  std::string out;
  std::string error;
};

/// Runs the built program with these arguments (quoted for the shell; `environment` like "NO_COLOR=1" goes before it).
Ran run_program(const std::vector<std::string>& arguments, const std::string& environment = {});

/// A folder of its own that goes away with the object.
class Folder {
 public:
  explicit Folder(const std::string& name);
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  std::string str() const { return folder_.string(); }

 private:
  std::filesystem::path folder_;
};

/// The demo's folder, written once for all tests of this program.
const std::string& demo_folder();

std::string file_text(const std::string& path);

}  // namespace ringfall::terminal
