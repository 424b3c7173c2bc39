// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/numbers.h"

#include <algorithm>
#include <array>

namespace ringfall::shot {
namespace {

using Value = std::optional<double>;

constexpr double kNoticed_db = 1.0;
constexpr double kNoticed_points = 0.5;

constexpr std::array kNumbers = {
    Number{"hum", "hum", "points", 1, kNoticed_points, [](const Shot& s) -> Value { return s.hum; }},
    Number{"hum_strength_db", "hum strength", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.hum_parts.strength_db; }},
    Number{"hum_ring_time_s", "hum ring time", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.hum_parts.ring_time_s; }},
    Number{"hum_pitch_hz", "hum pitch", "Hz", 1, 0.0,
           [](const Shot& s) -> Value { return s.hum_parts.pitch_hz; }},
    Number{"ping", "ping", "points", 1, kNoticed_points, [](const Shot& s) -> Value { return s.ping; }},
    Number{"ping_strength_db", "ping strength", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.ping_parts.strength_db; }},
    Number{"ping_ring_time_s", "ping ring time", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ping_parts.ring_time_s; }},
    Number{"ping_pitch_hz", "ping pitch", "Hz", 0, 0.0,
           [](const Shot& s) -> Value { return s.ping_parts.pitch_hz; }},
    Number{"exposure_db", "sound exposure, A", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.levels.exposure_db; }},
    Number{"exposure_z_db", "sound exposure, Z", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.levels.exposure_z_db; }},
    Number{"exposure_high_db", "sound exposure, 2-16 kHz", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.levels.exposure_high_db; }},
    Number{"fast_max_db", "fast maximum, A", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.levels.fast_max_db; }},
    Number{"peak_db", "peak", "dB", 1, kNoticed_db,
           [](const Shot& s) -> Value { return s.levels.peak_db; }},
    Number{"loudness_sone", "loudness", "sone", 2, 0.0,
           [](const Shot& s) -> Value { return s.levels.loudness_sone; }},
    Number{"sharpness_acum", "sharpness", "acum", 2, 0.0,
           [](const Shot& s) -> Value { return s.levels.sharpness_acum; }},
    Number{"early_s", "early ring-down, A", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.early_s; }},
    Number{"late_s", "late ring-down, A", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.late_s; }},
    Number{"early_z_s", "early ring-down, Z", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.early_z_s; }},
    Number{"late_z_s", "late ring-down, Z", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.late_z_s; }},
    Number{"range_db", "decay range used", "dB", 1, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.range_db; }},
    Number{"to_20_db_s", "time to -20 dB", "s", 3, 0.0,
           [](const Shot& s) -> Value { return s.ring_down.to_20_db_s; }},
    Number{"floor_db", "floor before the shot, A", "dB", 1, 0.0,
           [](const Shot& s) -> Value { return s.levels.floor_db; }},
    Number{"impact_lag_s", "impact lag", "s", 4, 0.0, [](const Shot& s) -> Value { return s.impact_lag_s; }},
    Number{"arrow_speed_m_s", "arrow speed", "m/s", 1, 0.0,
           [](const Shot& s) -> Value { return s.arrow_speed_m_s; }},
};

}  // namespace

std::span<const Number> numbers() { return kNumbers; }

const Number* find_number(std::string_view id) {
  const auto found = std::ranges::find(kNumbers, id, &Number::id);
  return found == kNumbers.end() ? nullptr : &*found;
}

}  // namespace ringfall::shot
