// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace ringfall::shot {

/// The arrow's point is this far ahead of the grip when the string reaches brace (common practice, no source).
inline constexpr double kPointAhead_m = 0.5;

/// Time from the loud edge to the target impact as a microphone beside the archer hears it:
/// lag = (D - 0.5 m)/v + D/c. Drag is left out (11-19 ms at 30 m and 60 m/s).
/// distance_m: grip to target face, > 0.5; speed_m_s > 0; temperature_c for the speed of sound.
/// Source: own arithmetic, docs/measures/shots.md#impact. Tested: shot.ArrowFlight.*
double impact_lag_s(double distance_m, double speed_m_s, double temperature_c);

/// Its inverse, v = (D - 0.5 m)/(lag - D/c): the mean speed over the flight. nullopt when the lag is not longer than the
/// sound's way back. 1 ms of lag is 0.2 m/s and 0.1 m of distance 0.4 m/s at 18 m and 60 m/s.
std::optional<double> arrow_speed_m_s(double distance_m, double lag_s, double temperature_c);

}  // namespace ringfall::shot
