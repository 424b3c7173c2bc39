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

/// Recordings of five shots each, of the demo's set-ups: block1-bare.wav, block2-clay-ring.wav, block3-felt-cuff.wav, block4-felt-cuff.wav,
/// block5-clay-ring.wav, block6-bare.wav. Written once a program.
const std::string& fives_folder();

std::string file_text(const std::string& path);

}  // namespace ringfall::terminal
