// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/outlier.h"

#include <cmath>

#include "base/check.h"
#include "stats/summary.h"

namespace ringfall::stats {

std::vector<Outlying> outlying_values(std::span<const double> values, double limit) {
  check(limit > 0.0, "a limit above 0");
  // Third quartile of the normal distribution: turns a MAD into a standard deviation.
  constexpr double kMadOfNormal = 0.6745;
  constexpr std::size_t kFewest = 5;
  const std::optional<double> middle = median(values);
  const std::optional<double> mad = median_absolute_deviation(values);
  std::vector<Outlying> found;
  if (values.size() < kFewest || *mad == 0.0) return found;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double z = kMadOfNormal * (values[i] - *middle) / *mad;
    if (std::abs(z) > limit) found.push_back({i, z});
  }
  return found;
}

}  // namespace ringfall::stats
