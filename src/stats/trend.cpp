// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/trend.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/rank_distributions.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr std::size_t kMostExactTrend = 60;

std::size_t order_of_end(std::span<const double> x, std::size_t slopes, double tail) {
  const std::size_t n = x.size();
  if (n <= kMostExactTrend && slopes == n * (n - 1) / 2) {
    return order_from_chances(discordant_pair_chances(n), tail);
  }
  std::map<double, double> equal;
  for (const double value : x) equal[value] += 1.0;
  const auto count = static_cast<double>(n);
  double variance = count * (count - 1.0) * (2.0 * count + 5.0);
  for (const auto& [value, t] : equal) variance -= t * (t - 1.0) * (2.0 * t + 5.0);
  const double reach = -normal_quantile(tail) * std::sqrt(variance / 18.0);
  return static_cast<std::size_t>(
      std::max(0.0, std::floor(0.5 * (static_cast<double>(slopes) - reach))));
}

}  // namespace

std::optional<RobustTrend> theil_sen(std::span<const double> x, std::span<const double> y,
                                     double confidence) {
  check(x.size() == y.size(), "as many y as x");
  check_finite(x);
  check_finite(y);
  check_share(confidence);
  std::vector<double> slopes;
  for (std::size_t i = 0; i < x.size(); ++i) {
    for (std::size_t j = i + 1; j < x.size(); ++j) {
      if (x[i] != x[j]) slopes.push_back((y[j] - y[i]) / (x[j] - x[i]));
    }
  }
  if (slopes.empty()) return std::nullopt;
  std::sort(slopes.begin(), slopes.end());
  RobustTrend trend;
  trend.slope = *median(slopes);
  trend.intercept = *median(y) - trend.slope * *median(x);
  const std::size_t k = order_of_end(x, slopes.size(), 0.5 - 0.5 * confidence);
  if (k > 0) trend.interval = Interval{slopes[k - 1], slopes[slopes.size() - k]};
  return trend;
}

std::optional<RankAgreement> mann_kendall(std::span<const double> x, std::span<const double> y) {
  return kendall(x, y);
}

}  // namespace ringfall::stats
