// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "audio/sound_writer.h"
#include "support/demo_fives.h"

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

Ran run_program(const std::vector<std::string>& arguments, const std::string& environment) {
  const TestFolder scratch;
  std::string command = environment + " " + quoted(RINGFALL_PROGRAM);
  for (const auto& argument : arguments) command += " " + quoted(argument);
  command += " >" + quoted(scratch.path("out")) + " 2>" + quoted(scratch.path("error"));
  const int status = std::system(command.c_str());
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, file_text(scratch.path("out")), file_text(scratch.path("error"))};
}

const std::string& demo_folder() {
  static const TestFolder folder;
  static const std::string path = [] {
    run_program({"demo", folder.str()});
    return folder.str();
  }();
  return path;
}

const std::string& fives_folder() {
  static const TestFolder folder;
  static const std::string path = [] {
    const auto blocks = five_shot_blocks();
    for (std::size_t k = 0; k < blocks.size(); ++k) {
      audio::write_wav(folder.path(blocks[k].file), intake::demo_samples(blocks, k), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
    }
    return folder.str();
  }();
  return path;
}

}  // namespace ringfall::terminal
