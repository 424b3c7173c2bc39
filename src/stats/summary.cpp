// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/summary.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/check.h"
#include "stats/distributions.h"
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

std::optional<double> lag1_autocorrelation(std::span<const double> values) {
  check_finite(values);
  if (values.size() < 2) return std::nullopt;
  const Centred parts = centred(values);
  const double shift = compensated_sum(parts.deviations) / static_cast<double>(values.size());
  CompensatedSum products;
  for (std::size_t i = 0; i + 1 < values.size(); ++i) {
    products.add((parts.deviations[i] - shift) * (parts.deviations[i + 1] - shift));
  }
  const double squares = squares_about_mean(values);
  if (squares == 0.0) return std::nullopt;
  return products.value() / squares;
}

std::optional<MeanEstimate> mean_with_interval(std::span<const double> values, double confidence) {
  check_share(confidence);
  const std::optional<double> deviation = standard_deviation(values);
  if (!deviation) return std::nullopt;
  const double n = static_cast<double>(values.size());
  MeanEstimate result{.mean = plain_mean(values),
                      .standard_deviation = *deviation,
                      .standard_error = *deviation / std::sqrt(n),
                      .df = n - 1.0,
                      .interval = {}};
  const double reach =
      student_t_quantile(0.5 + 0.5 * confidence, result.df) * result.standard_error;
  result.interval = {result.mean - reach, result.mean + reach};
  return result;
}

}  // namespace ringfall::stats
