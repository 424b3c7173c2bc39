// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "base/finding.h"

namespace ringfall::compare {

/// How warm a session was; nullopt: nobody said.
struct AirOfSession {
  int session = 0;
  std::optional<double> temperature_c;
  bool has_arrow_speed = false;  ///< of a shot of it
};

/// What warmth and cold leave open: `temperature_differs` when those that were said differ by more than 5 C, `temperature_not_said` when of
/// several sessions some were not said. An unsaid temperature is held against nothing. A session may come several times.
/// Definition: docs/measures/comparison.md#confounders. Tested: compare.AirDoubts.*
std::vector<Finding> air_doubts(const std::vector<AirOfSession>& sessions);

}  // namespace ringfall::compare
