// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "shot/shot_levels.h"

namespace ringfall::shot {

/// Where something foreign begins in a shot's tail (a voice, another's shot, an impact that nobody told of): seconds after the
/// edge, or nullopt. A bow dies away: from 30 ms on, the A-weighted level in frames of 6 ms, median of three, must not rise by
/// more than 4 dB over the lowest it has been (nor over the floor before the shot), in octaves two apart at least: two modes that beat
/// rise in one, or in it and the next. `buzz_rate_hz`: of a loose part, if there may be one; its blows are averaged over.
/// What it found on spoiled and on good tails: docs/measures/hard_ground.md. Source: own. Tested: shot.TailDisturbance.*
std::optional<double> tail_disturbance_s(const ShotSegment& segment, const Floor& floor, std::optional<double> buzz_rate_hz);

}  // namespace ringfall::shot
