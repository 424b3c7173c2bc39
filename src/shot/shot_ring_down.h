// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "shot/settings.h"
#include "shot/shot.h"
#include "shot/shot_levels.h"
#include "signal/decay.h"

namespace ringfall::shot {

/// How the shot dies away, from the loud edge to the end of the undisturbed stretch.
struct RingDownResult {
  RingDown numbers;
  std::optional<signal::Decay> a;  ///< A-weighted, with curve and fit lines for plots
  std::optional<signal::Decay> z;  ///< unweighted
  double floor_takes_over_s = 0.0; ///< after the edge: where both meet the floor, or the end of the stretch
};

/// Definitions: docs/measures/ring_down.md. Source: ISO 3382-1:2009 5.3, 5.4. Tested: shot.ShotRingDown.*
RingDownResult measure_ring_down(const ShotSegment& segment, const Floor& floor, const MeasureSettings& settings);

}  // namespace ringfall::shot
