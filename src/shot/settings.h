// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "base/units.h"

namespace ringfall::shot {

/// Every threshold of finding and measuring, with its unit and the reason for its value. The printed output
/// repeats them under "settings", so a result always says how it was made.

struct FindSettings {
  double pre_roll_s = 0.8;    ///< kept before the edge: floor spectrum -600 .. -50 ms and the clicker
  double post_roll_s = 1.2;   ///< kept after the edge: tail to 0.5 s, then the floor after the impact
  std::optional<int> expect;  ///< keep the N most shot-like events
  std::optional<double> distance_m;       ///< grip to target face
  std::optional<double> arrow_speed_m_s;  ///< a stated speed sharpens the impact search
  double temperature_c = kAssumedTemperature_c;  ///< for the speed of sound
};

struct MeasureSettings {
  double shot_window_s = 0.300;       ///< exposure window after the edge (250-300 ms is common practice, no source)
  double floor_begin_s = -0.600;      ///< floor spectrum: before clicker and release
  double floor_end_s = -0.050;
  double hum_tail_start_s = 0.030;    ///< after the thump's loudest part
  double ping_tail_start_s = 0.015;   ///< after the slap clicks
  double impact_guard_s = 0.010;      ///< the tail stops this long before the impact
  double tail_limit_s = 0.500;        ///< the same end for all set-ups compared
  double hum_tail_needed_s = 0.200;   ///< below this hum is not measurable (trade practice, see measures.md)
  double ping_tail_needed_s = 0.080;
  double hum_low_hz = 60.0, hum_high_hz = 400.0;
  double ping_low_hz = 800.0, ping_high_hz = 8000.0;
  double hum_level_start_s = 0.060;   ///< plain tail level: an ordinary thump has fallen by 40 dB
  double ping_level_start_s = 0.050;  ///< most slaps are over
  double tail_level_end_s = 0.130;    ///< before the impact from 10 m even with a fast arrow
  double hit_window_s = 0.080;        ///< separate attacks are listed this far
  double decay_range_needed_db = 15.0;///< a late fit without this much clean range is null
};

struct Settings {
  FindSettings find;
  MeasureSettings measure;
};

}  // namespace ringfall::shot
