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

// The smallest n in first .. kMost for which enough(n) holds, which stays true once it is.
template <typename Enough>
std::optional<std::size_t> fewest_from(std::size_t first, Enough enough) {
  std::size_t too_few = first - 1;
  std::size_t n = first;
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

// Of a normal difference: chance that |d| > reach.
double chance_beyond(double difference, double error, double reach) {
  return normal_cdf((difference - reach) / error) + normal_cdf((-difference - reach) / error);
}

// Simpson's rule in equal steps.
template <typename Function>
double integral(Function f, double from, double to) {
  constexpr int kSteps = 16;
  const double step = (to - from) / kSteps;
  double sum = f(from) + f(to);
  for (int k = 1; k < kSteps; ++k) sum += (k % 2 == 1 ? 4.0 : 2.0) * f(from + step * k);
  return to > from ? sum * step / 3.0 : 0.0;
}

}  // namespace

double two_group_power(double difference, double deviation, std::size_t n, double alpha, std::optional<double> known_df) {
  check(std::isfinite(difference) && deviation > 0.0 && n >= 2,
        "a difference, a spread, two shots");
  check_share(alpha);
  const auto count = static_cast<double>(n);
  const double df = known_df.value_or(2.0 * count - 2.0);
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
  return fewest_from(
      2, [&](std::size_t n) { return two_group_power(difference, deviation, n, alpha) >= power; });
}

double settling_power(double difference, double deviation, double noticeable, std::size_t units, std::size_t sessions) {
  check(std::isfinite(difference) && deviation > 0.0 && noticeable >= 0.0, "a difference, a spread, what matters");
  check(2 * units >= sessions + 2, "a degree of freedom");
  const double df = 2.0 * static_cast<double>(units) - static_cast<double>(sessions) - 1.0;
  const double error = deviation * std::sqrt(2.0 / static_cast<double>(units));
  const double reach = student_t_quantile(0.5 + 0.5 * kConfidence, df) * error;  // half width where the spread is found as it is
  // x: spread found by the true one; df x^2 is chi-square with df.
  const double log_scale = std::log(2.0) + 0.5 * df * std::log(0.5 * df) - std::lgamma(0.5 * df);
  const auto settled_at = [&](double x) {
    if (x == 0.0 && df > 1.0) return 0.0;
    const double half_width = reach * x;
    double settled = chance_beyond(difference, error, half_width);
    const double within = std::min(half_width, noticeable - half_width);
    if (within > 0.0) settled += 1.0 - chance_beyond(difference, error, within);
    return settled * std::exp(log_scale + (df > 1.0 ? (df - 1.0) * std::log(x) : 0.0) - 0.5 * df * x * x);
  };
  // Smooth but where the half width passes n / 2 and n, and worth summing 7 deviations about 1.
  const double wide = 7.0 / std::sqrt(2.0 * df);
  const double last = 1.0 + wide;
  double sum = 0.0;
  double from = std::max(0.0, 1.0 - wide);
  for (const double to : {0.5 * noticeable / reach, noticeable / reach, 1.0, 0.5 * (1.0 + last), last}) {
    const double end = std::clamp(to, from, last);
    sum += integral(settled_at, from, end);
    from = end;
  }
  return std::min(1.0, sum);
}

std::optional<std::size_t> units_to_settle(double difference, double deviation, double noticeable, std::size_t fewest,
                                           std::size_t sessions, double power) {
  check_share(power);
  const auto enough = [&](std::size_t n) { return settling_power(difference, deviation, noticeable, n, sessions) >= power; };
  // Either way alone needs about 2 (z deviation / room)^2, by the normal distribution, and both together never under a third of that.
  const double room = std::max(std::abs(difference), noticeable - std::abs(difference));
  const double z = normal_quantile(0.5 + 0.5 * kConfidence) + normal_quantile(power);
  const double about = 2.0 * z * z * deviation * deviation / (room * room);
  const std::size_t first = std::max<std::size_t>({fewest, 2, sessions / 2 + 1});
  if (!(about / 3.0 < static_cast<double>(kMost))) return std::nullopt;  // room 0 too
  return fewest_from(std::max(first, static_cast<std::size_t>(about / 3.0)), enough);
}

double detectable_difference(double deviation, std::size_t n, double power, double alpha, std::optional<double> df) {
  check_share(power);
  check(power > alpha, "more power than chance alone gives");
  double low = 0.0;
  double high = deviation;
  while (two_group_power(high, deviation, n, alpha, df) < power) high *= 2.0;
  while (high - low > 1e-12 * high) {
    const double middle = 0.5 * (low + high);
    (two_group_power(middle, deviation, n, alpha, df) < power ? low : high) = middle;
  }
  return high;
}

double expected_half_width(double deviation, std::size_t n, double confidence, std::optional<double> df) {
  check(deviation > 0.0 && n >= 2, "a spread, two shots");
  check_share(confidence);
  const auto count = static_cast<double>(n);
  return student_t_quantile(0.5 + 0.5 * confidence, df.value_or(2.0 * count - 2.0)) * deviation *
         std::sqrt(2.0 / count);
}

}  // namespace ringfall::stats
