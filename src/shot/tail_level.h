// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "shot/pressure_clip.h"
#include "shot/settings.h"
#include "shot/shot_levels.h"

namespace ringfall::shot {

/// Mean-square level of one family's band in a fixed window after the edge, the floor's share taken off: dB re 20 uPa.
struct TailLevel {
  double level_db = 0.0;
  bool at_floor = false;  ///< the band is not clearly above its floor: level_db is the most that it can be
};

/// The plain levels of a tail: no tone is asked for, so they are there when hum and ping can't be told. What is left of the
/// thump, the room's answer and any other sound are in them.
struct TailLevels {
  std::optional<TailLevel> hum;   ///< hum_low_hz .. hum_high_hz, hum_level_start_s .. tail_level_end_s
  std::optional<TailLevel> ping;  ///< ping_low_hz .. ping_high_hz, ping_level_start_s .. tail_level_end_s
};

/// In   segment  of the same clip, up to the undisturbed end of the tail
/// nullopt: the tail ends before tail_level_end_s (a shorter window would be another number), or the sample rate ends below
/// the band. Without a floor before the shot nothing is taken off.
/// Source: own (windows and bands: docs/measures/hum_ping.md#tail-level).  Tests: shot.TailLevel.*
TailLevels tail_levels(const PressureClip& clip, const ShotSegment& segment, const MeasureSettings& settings);

}  // namespace ringfall::shot
