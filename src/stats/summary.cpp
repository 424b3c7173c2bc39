// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/summary.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/check.h"
#include "stats/sums.h"

namespace ringfall::stats {

std::optional<double> mean(std::span<const double> values) {
  check_finite(values);
  if (values.empty()) return std::nullopt;
  return plain_mean(values);
}

std::optional<double> standard_deviation(std::span<const double> values) {
  check_finite(values);
  if (values.size() < 2) return std::nullopt;
  return std::sqrt(squares_about_mean(values) / static_cast<double>(values.size() - 1));
}

std::optional<double> median(std::span<const double> values) { return quantile(values, 0.5); }

std::optional<double> median_absolute_deviation(std::span<const double> values) {
  const std::optional<double> middle = median(values);
  if (!middle) return std::nullopt;
  std::vector<double> distances(values.begin(), values.end());
  for (double& value : distances) value = std::abs(value - *middle);
  return median(distances);
}

std::optional<double> quantile(std::span<const double> values, double p) {
  check_finite(values);
  check(p >= 0.0 && p <= 1.0, "a share from 0 to 1");
  if (values.empty()) return std::nullopt;
  std::vector<double> sorted(values.begin(), values.end());
  std::sort(sorted.begin(), sorted.end());
  const double position = p * static_cast<double>(sorted.size() - 1);
  const auto below = static_cast<std::size_t>(position);
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  return std::lerp(sorted[below], sorted[above], position - std::floor(position));
}

}  // namespace ringfall::stats
