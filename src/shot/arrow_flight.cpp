// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/arrow_flight.h"

#include "base/units.h"

namespace ringfall::shot {

double impact_lag_s(double distance_m, double speed_m_s, double temperature_c) {
  return (distance_m - kPointAhead_m) / speed_m_s + distance_m / sound_speed_m_s(temperature_c);
}

std::optional<double> arrow_speed_m_s(double distance_m, double lag_s, double temperature_c) {
  const double flight_s = lag_s - distance_m / sound_speed_m_s(temperature_c);
  if (flight_s <= 0.0 || distance_m <= kPointAhead_m) return std::nullopt;
  return (distance_m - kPointAhead_m) / flight_s;
}

}  // namespace ringfall::shot
