// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/power.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr std::size_t kMost = 100'000;

// The smallest n in 2 .. kMost for which enough(n) holds, which stays true once it is.
template <typename Enough>
std::optional<std::size_t> fewest(Enough enough) {
  std::size_t too_few = 1;
  std::size_t n = 2;
  while (!enough(n)) {
    if (n == kMost) return std::nullopt;
    too_few = n;
    n = std::min(2 * n, kMost);
  }
  while (n - too_few > 1) {
    const std::size_t middle = (too_few + n) / 2;
    (enough(middle) ? n : too_few) = middle;
  }
  return n;
}

}  // namespace

double two_group_power(double difference, double deviation, std::size_t n, double alpha) {
  check(std::isfinite(difference) && deviation > 0.0 && n >= 2,
        "a difference, a spread, two shots");
  check_share(alpha);
  const auto count = static_cast<double>(n);
  const double df = 2.0 * count - 2.0;
  const double noncentrality = difference / deviation * std::sqrt(0.5 * count);
  const double t = student_t_quantile(1.0 - 0.5 * alpha, df);
  // Past any doubt, and past the series' range.
  if (std::abs(noncentrality) > 30.0 + 2.0 * t) return 1.0;
  return 1.0 - noncentral_t_cdf(t, df, noncentrality) + noncentral_t_cdf(-t, df, noncentrality);
}

std::optional<std::size_t> shots_for_power(double difference, double deviation, double power,
                                           double alpha) {
  check_share(power);
  if (difference == 0.0) return std::nullopt;
  return fewest(
      [&](std::size_t n) { return two_group_power(difference, deviation, n, alpha) >= power; });
}

double detectable_difference(double deviation, std::size_t n, double power, double alpha) {
  check_share(power);
  check(power > alpha, "more power than chance alone gives");
  double low = 0.0;
  double high = deviation;
  while (two_group_power(high, deviation, n, alpha) < power) high *= 2.0;
  while (high - low > 1e-12 * high) {
    const double middle = 0.5 * (low + high);
    (two_group_power(middle, deviation, n, alpha) < power ? low : high) = middle;
  }
  return high;
}

double expected_half_width(double deviation, std::size_t n, double confidence) {
  check(deviation > 0.0 && n >= 2, "a spread, two shots");
  check_share(confidence);
  const auto count = static_cast<double>(n);
  return student_t_quantile(0.5 + 0.5 * confidence, 2.0 * count - 2.0) * deviation *
         std::sqrt(2.0 / count);
}

std::optional<std::size_t> shots_for_half_width(double half_width, double deviation,
                                                double confidence) {
  check(half_width > 0.0, "a width");
  return fewest(
      [&](std::size_t n) { return expected_half_width(deviation, n, confidence) <= half_width; });
}

}  // namespace ringfall::stats
