// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/trend_within.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <vector>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

/// t (t - 1) (2 t + 5), summed over runs of equal values.
double tie_term(std::vector<double> values) {
  std::ranges::sort(values);
  double sum = 0.0;
  for (std::size_t begin = 0; begin < values.size();) {
    std::size_t end = begin;
    while (end < values.size() && values[end] == values[begin]) ++end;
    const auto t = static_cast<double>(end - begin);
    sum += t * (t - 1.0) * (2.0 * t + 5.0);
    begin = end;
  }
  return sum;
}

struct GroupPoints {
  std::vector<double> x;
  std::vector<double> y;
};

}  // namespace

std::optional<TrendWithin> trend_within(std::span<const double> x, std::span<const std::size_t> group,
                                        std::span<const double> y, double confidence) {
  check(x.size() == y.size() && group.size() == y.size(), "lists of one length");
  check_finite(x);
  check_finite(y);
  check_share(confidence);
  std::map<std::size_t, GroupPoints> groups;
  for (std::size_t i = 0; i < y.size(); ++i) {
    groups[group[i]].x.push_back(x[i]);
    groups[group[i]].y.push_back(y[i]);
  }
  std::vector<double> slopes;
  double variance = 0.0;
  double s = 0.0;
  for (const auto& [label, points] : groups) {
    const auto n = static_cast<double>(points.y.size());
    for (std::size_t i = 0; i < points.y.size(); ++i) {
      for (std::size_t j = i + 1; j < points.y.size(); ++j) {
        if (points.x[i] == points.x[j]) continue;
        slopes.push_back((points.y[j] - points.y[i]) / (points.x[j] - points.x[i]));
        s += slopes.back() > 0.0 ? 1.0 : slopes.back() < 0.0 ? -1.0 : 0.0;
      }
    }
    variance += (n * (n - 1.0) * (2.0 * n + 5.0) - tie_term(points.x) - tie_term(points.y)) / 18.0;
  }
  if (slopes.empty()) return std::nullopt;
  std::ranges::sort(slopes);
  TrendWithin trend;
  trend.pairs = slopes.size();
  const std::size_t middle = slopes.size() / 2;
  trend.slope = slopes.size() % 2 == 1 ? slopes[middle] : 0.5 * (slopes[middle - 1] + slopes[middle]);
  if (variance > 0.0) {
    const double z = std::max(0.0, std::abs(s) - 1.0) / std::sqrt(variance);
    trend.p = std::min(1.0, 2.0 * normal_cdf(-z));
    const double reach = -normal_quantile(0.5 - 0.5 * confidence) * std::sqrt(variance);
    const auto k = static_cast<std::size_t>(std::max(0.0, std::floor(0.5 * (static_cast<double>(slopes.size()) - reach))));
    if (k > 0) trend.interval = Interval{slopes[k - 1], slopes[slopes.size() - k]};
  }
  return trend;
}

}  // namespace ringfall::stats
