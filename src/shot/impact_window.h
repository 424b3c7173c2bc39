// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shot/settings.h"

namespace ringfall::shot {

/// When the arrow may be heard to strike, in seconds after the loud edge.
struct ImpactWindow {
  double earliest_s = 0.0;
  double latest_s = 0.0;
};

/// From the distance and the speed when they are known, else 34 ms (3 m, a fast compound) to 1.7 s (70 m, a target recurve).
/// Docs and table: docs/measures/shots.md#impact. Tested: shot.ImpactWindow.*
ImpactWindow impact_window(const FindSettings& settings);

}  // namespace ringfall::shot
