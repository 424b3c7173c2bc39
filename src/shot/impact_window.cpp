// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/impact_window.h"

#include <algorithm>

#include "shot/arrow_flight.h"

namespace ringfall::shot {
namespace {

constexpr double kEarliest_s = 0.034;
constexpr double kLatest_s = 1.70;
constexpr double kSlowest_m_s = 30.0;
constexpr double kFastest_m_s = 125.0;
constexpr double kSpeedSlack = 0.15;   // a stated speed is often the maker's, and drag takes some
constexpr double kLagSlack_s = 0.010;

}  // namespace

ImpactWindow impact_window(const FindSettings& settings) {
  if (!settings.distance_m) return {kEarliest_s, kLatest_s};
  const double slowest = settings.arrow_speed_m_s ? *settings.arrow_speed_m_s * (1.0 - kSpeedSlack) : kSlowest_m_s;
  const double fastest = settings.arrow_speed_m_s ? *settings.arrow_speed_m_s * (1.0 + kSpeedSlack) : kFastest_m_s;
  const double early = impact_lag_s(*settings.distance_m, fastest, settings.temperature_c) - kLagSlack_s;
  const double late = impact_lag_s(*settings.distance_m, slowest, settings.temperature_c) + kLagSlack_s;
  return {std::max(early, 0.020), std::max(late, 0.040)};
}

}  // namespace ringfall::shot
