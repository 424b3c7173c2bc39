// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/session.h"

namespace ringfall::compare {

/// A block whose shots have these sound exposures.
inline SessionBlock exposure_block(const std::string& setup, int number, const std::vector<double>& exposures, int session = 1) {
  SessionBlock made;
  made.session = session;
  made.file = setup + std::to_string(number) + ".wav";
  made.setup = setup;
  made.block = number;
  made.sample_rate_hz = 48000.0;
  for (const double exposure : exposures) {
    SessionShot entry;
    entry.shot.number = static_cast<int>(made.shots.size()) + 1;
    entry.shot.levels.exposure_db = exposure;
    made.shots.push_back(entry);
  }
  return made;
}

}  // namespace ringfall::compare
