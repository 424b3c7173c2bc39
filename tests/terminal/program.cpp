// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

namespace ringfall::terminal {
namespace {

std::string quoted(const std::string& word) {
  std::string out = "'";
  for (const char letter : word) out += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return out + "'";
}

}  // namespace

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

Folder::Folder(const std::string& name)
    : folder_(std::filesystem::temp_directory_path() /
              ("ringfall-terminal-" + name + "-" + std::to_string(getpid()))) {
  std::filesystem::remove_all(folder_);
  std::filesystem::create_directories(folder_);
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

Ran run_program(const std::vector<std::string>& arguments, const std::string& environment) {
  const Folder scratch("run");
  std::string command = environment + " " + quoted(RINGFALL_PROGRAM);
  for (const auto& argument : arguments) command += " " + quoted(argument);
  command += " >" + quoted(scratch.path("out")) + " 2>" + quoted(scratch.path("error"));
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, file_text(scratch.path("out")), file_text(scratch.path("error"))};
}

const std::string& demo_folder() {
  static const Folder folder("demo");
  static const std::string path = [] {
    run_program({"demo", folder.str()});
    return folder.str();
  }();
  return path;
}

}  // namespace ringfall::terminal
