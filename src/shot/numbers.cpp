// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/numbers.h"

#include <algorithm>
#include <array>

namespace ringfall::shot {
namespace {

using Value = std::optional<double>;

constexpr double kNoticed_db = 1.0;
constexpr double kNoticed_points = 0.5;

/// `place` gives the value's place in a shot, constant or not.
template <typename Place>
constexpr Number number(std::string_view id, std::string_view label, std::string_view unit, int decimals, double noticeable,
                        Place /*place*/) {
  return {id, label, unit, decimals, noticeable, id.ends_with("_at_most"), [](const Shot& s) -> Value { return Place{}(s); },
          [](Shot& s) -> Value& { return Place{}(s); }};
}

constexpr std::array kNumbers = {
    number("hum", "hum", "points", 1, kNoticed_points, [](auto& s) -> auto& { return s.hum; }),
    number("hum_at_most", "hum at most", "points", 1, kNoticed_points, [](auto& s) -> auto& { return s.hum_at_most; }),
    number("hum_tail_db", "hum band in the tail", "dB", 1, kNoticed_db, [](auto& s) -> auto& { return s.hum_tail_db; }),
    number("hum_strength_db", "hum strength", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.hum_parts.strength_db; }),
    number("hum_ring_time_s", "hum ring time", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.hum_parts.ring_time_s; }),
    number("hum_pitch_hz", "hum pitch", "Hz", 1, 0.0,
           [](auto& s) -> auto& { return s.hum_parts.pitch_hz; }),
    number("ping", "ping", "points", 1, kNoticed_points, [](auto& s) -> auto& { return s.ping; }),
    number("ping_at_most", "ping at most", "points", 1, kNoticed_points, [](auto& s) -> auto& { return s.ping_at_most; }),
    number("ping_tail_db", "ping band in the tail", "dB", 1, kNoticed_db, [](auto& s) -> auto& { return s.ping_tail_db; }),
    number("ping_strength_db", "ping strength", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.ping_parts.strength_db; }),
    number("ping_ring_time_s", "ping ring time", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ping_parts.ring_time_s; }),
    number("ping_pitch_hz", "ping pitch", "Hz", 0, 0.0,
           [](auto& s) -> auto& { return s.ping_parts.pitch_hz; }),
    number("exposure_db", "sound exposure, A", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.levels.exposure_db; }),
    number("exposure_z_db", "sound exposure, Z", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.levels.exposure_z_db; }),
    number("exposure_high_db", "sound exposure, 2-16 kHz", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.levels.exposure_high_db; }),
    number("fast_max_db", "fast maximum, A", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.levels.fast_max_db; }),
    number("peak_db", "peak", "dB", 1, kNoticed_db,
           [](auto& s) -> auto& { return s.levels.peak_db; }),
    number("loudness_sone", "loudness", "sone", 2, 0.0,
           [](auto& s) -> auto& { return s.levels.loudness_sone; }),
    number("sharpness_acum", "sharpness", "acum", 2, 0.0,
           [](auto& s) -> auto& { return s.levels.sharpness_acum; }),
    number("early_s", "early ring-down, A", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ring_down.early_s; }),
    number("late_s", "late ring-down, A", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ring_down.late_s; }),
    number("early_z_s", "early ring-down, Z", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ring_down.early_z_s; }),
    number("late_z_s", "late ring-down, Z", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ring_down.late_z_s; }),
    number("range_db", "decay range used", "dB", 1, 0.0,
           [](auto& s) -> auto& { return s.ring_down.range_db; }),
    number("to_20_db_s", "time to -20 dB", "s", 3, 0.0,
           [](auto& s) -> auto& { return s.ring_down.to_20_db_s; }),
    number("floor_db", "floor before the shot, A", "dB", 1, 0.0,
           [](auto& s) -> auto& { return s.levels.floor_db; }),
    number("impact_lag_s", "impact lag", "s", 4, 0.0, [](auto& s) -> auto& { return s.impact_lag_s; }),
    number("arrow_speed_m_s", "arrow speed", "m/s", 1, 0.0,
           [](auto& s) -> auto& { return s.arrow_speed_m_s; }),
};

}  // namespace

std::span<const Number> numbers() { return kNumbers; }

const Number* find_number(std::string_view id) {
  const auto found = std::ranges::find(kNumbers, id, &Number::id);
  return found == kNumbers.end() ? nullptr : &*found;
}

}  // namespace ringfall::shot
