// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/select_own.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "shot/impact_search.h"

namespace ringfall::shot {
namespace {

constexpr double kDullOctave_db = 5.0;
constexpr double kOtherLag_db = 3.0;
constexpr double kNoLag_db = 2.0;
constexpr double kMostHeld_db = 4.5;
constexpr double kSameLag = 0.06;
std::optional<double> lag_of(const Event& event) {
  if (!event.impact_sample) return std::nullopt;
  return static_cast<double>(*event.impact_sample - event.onset_sample) - event.onset_fraction;
}

}  // namespace

double quantile(std::vector<double> values, double share) {
  std::ranges::sort(values);
  const double place = share * static_cast<double>(values.size() - 1);
  const auto low = static_cast<std::size_t>(place);
  const std::size_t high = std::min(low + 1, values.size() - 1);
  return values[low] + (place - static_cast<double>(low)) * (values[high] - values[low]);
}

std::vector<double> nearness_db(std::span<const Event> events) {
  std::vector<double> levels_db;
  for (const Event& event : events) levels_db.push_back(0.5 * (event.edge_db + event.body_db));
  if (events.empty()) return levels_db;
  // What the loud ones are like: within 4 dB of the third loudest (or the last of fewer).
  auto sorted = levels_db;
  std::ranges::sort(sorted, std::greater<>());
  const double loud_db = sorted[std::min<std::size_t>(2, sorted.size() - 1)] - 4.0;
  std::vector<double> brightness_hz;
  std::vector<double> lags;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (levels_db[k] < loud_db) continue;
    brightness_hz.push_back(events[k].brightness_hz);
    if (const auto lag = lag_of(events[k])) lags.push_back(*lag);
  }
  const double usual_hz = quantile(brightness_hz, 0.5);
  const double usual_lag = lags.size() < 3 ? 0.0 : quantile(lags, 0.5);
  const auto is_usual = [&](double lag) { return std::abs(lag / usual_lag - 1.0) < kSameLag; };
  const bool agreed = lags.size() >= 3 && std::ranges::count_if(lags, is_usual) * 10 >= std::ssize(brightness_hz) * 7;
  for (std::size_t k = 0; k < events.size(); ++k) {
    const auto lag = lag_of(events[k]);
    if (agreed && lag && is_usual(*lag)) continue;  // whatever it sounds like, it flew as the others
    const double duller = std::log2(usual_hz / std::max(events[k].brightness_hz, 1.0));
    const double by_lag_db = !agreed ? 0.0 : lag ? kOtherLag_db : kNoLag_db;
    levels_db[k] -= std::min(kDullOctave_db * std::max(duller, 0.0) + by_lag_db, kMostHeld_db);
  }
  return levels_db;
}

std::vector<std::size_t> lone_impacts(std::span<const Event> own, double sample_rate_hz) {
  std::vector<std::size_t> lone;
  std::vector<std::optional<double>> lags;
  for (const Event& event : own) lags.push_back(lag_of(event));
  const auto having = std::ranges::count_if(lags, [](const auto& lag) { return lag.has_value(); });
  if (own.size() < 2) return lone;
  for (std::size_t k = 0; k < lags.size(); ++k) {
    if (!lags[k]) continue;
    const auto sharing = std::ranges::count_if(lags, [&](const auto& lag) {
      return lag && same_lag(*lag / sample_rate_hz, *lags[k] / sample_rate_hz);
    });
    if (sharing < 2 || 4 * sharing < having) lone.push_back(k);
  }
  return lone;
}

}  // namespace ringfall::shot
