// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/outlier.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {

std::vector<Outlying> outlying_values(std::span<const double> values, double limit) {
  check(limit > 0.0, "a limit above 0");
  // Third quartile of the normal distribution, and its mean absolute deviation: turn either into a standard deviation.
  constexpr double kMadOfNormal = 0.6745;
  constexpr double kMeanOfNormal = 1.253314;  // sqrt(pi / 2)
  constexpr std::size_t kFewest = 5;
  check_finite(values);
  std::vector<Outlying> found;
  if (values.size() < kFewest) return found;
  const double middle = *median(values);
  const double mad = *median_absolute_deviation(values);
  double mean_distance = 0.0;
  for (const double value : values) mean_distance += std::abs(value - middle) / static_cast<double>(values.size());
  const double scale = mad > 0.0 ? mad / kMadOfNormal : kMeanOfNormal * mean_distance;
  if (scale == 0.0) return found;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double z = (values[i] - middle) / scale;
    if (std::abs(z) > limit) found.push_back({i, z});
  }
  return found;
}

double grubbs_p(std::span<const double> values, std::size_t index) {
  check_finite(values);
  check(index < values.size(), "one of the values");
  const auto deviation = standard_deviation(values);
  if (values.size() < 3 || !deviation || *deviation == 0.0) return 1.0;
  const auto n = static_cast<double>(values.size());
  const double g = std::abs(values[index] - plain_mean(values)) / *deviation;
  const double room = (n - 1.0) * (n - 1.0) - n * g * g;
  if (room <= 0.0) return 0.0;
  return std::min(1.0, n * student_t_two_sided_p(std::sqrt(n * (n - 2.0) * g * g / room), n - 2.0));
}

}  // namespace ringfall::stats
