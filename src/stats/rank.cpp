// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/rank.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {

std::vector<double> ranks(std::span<const double> values) {
  check_finite(values);
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](auto i, auto j) { return values[i] < values[j]; });
  std::vector<double> result(values.size());
  for (std::size_t from = 0; from < order.size();) {
    std::size_t to = from;
    while (to < order.size() && values[order[to]] == values[order[from]]) ++to;
    const double shared = 0.5 * static_cast<double>(from + 1 + to);
    for (; from < to; ++from) result[order[from]] = shared;
  }
  return result;
}

std::optional<std::size_t> pairs_for_power(double rho, double power, double alpha) {
  check(std::abs(rho) <= 1.0, "a correlation");
  check_share(power);
  check_share(alpha);
  constexpr double kFewestPairs = 5.0;
  constexpr double kMostPairs = 100'000.0;
  if (rho == 0.0) return std::nullopt;
  const double z = normal_quantile(1.0 - 0.5 * alpha) + normal_quantile(power) * std::sqrt(1.0 + 0.5 * rho * rho);
  const double root = std::abs(rho) < 1.0 ? z / std::atanh(std::abs(rho)) : 0.0;
  const double pairs = std::max(kFewestPairs, std::ceil(3.0 + root * root));
  if (pairs > kMostPairs) return std::nullopt;
  return static_cast<std::size_t>(pairs);
}

}  // namespace ringfall::stats
