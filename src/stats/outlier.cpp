// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/outlier.h"

#include <cmath>

#include "base/check.h"
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

}  // namespace ringfall::stats
