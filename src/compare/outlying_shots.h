// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "compare/measure.h"
#include "compare/session.h"

namespace ringfall::compare {

/// A shot whose number lies far from its set-up's others: shown, never dropped by itself.
struct OutlyingShot {
  std::string measure;  ///< id
  std::string setup;
  std::string file;
  int number = 0;       ///< in its recording
  std::int64_t id = 0;  ///< in a logbook; 0: not from one
  double value = 0.0;
  double median = 0.0;  ///< of the set-up
  double robust_z = 0.0;
};

/// stats::outlying_values within each set-up of each session, number by number, of which a Grubbs test (times the groups) says p under 0.05. Tests: compare.Outlying.*
std::vector<OutlyingShot> outlying_shots(const Session& session, const std::vector<Measure>& measures);

}  // namespace ringfall::compare
