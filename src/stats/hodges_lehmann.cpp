// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/hodges_lehmann.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "stats/distributions.h"
#include "stats/rank_distributions.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

constexpr std::size_t kMostExactHodgesLehmann = 50;

std::size_t order_of_end(std::size_t n1, std::size_t n2, double tail) {
  if (n1 <= kMostExactHodgesLehmann && n2 <= kMostExactHodgesLehmann) {
    return order_from_chances(mann_whitney_chances(n1, n2), tail);
  }
  const double pairs = static_cast<double>(n1) * static_cast<double>(n2);
  const double deviation = std::sqrt(pairs * static_cast<double>(n1 + n2 + 1) / 12.0);
  return static_cast<std::size_t>(
      std::max(0.0, std::floor(0.5 * pairs + normal_quantile(tail) * deviation)));
}

}  // namespace

std::optional<Shift> hodges_lehmann_shift(std::span<const double> first,
                                          std::span<const double> second, double confidence) {
  check_finite(first);
  check_finite(second);
  check_share(confidence);
  if (first.empty() || second.empty()) return std::nullopt;
  std::vector<double> differences;
  differences.reserve(first.size() * second.size());
  for (const double a : first) {
    for (const double b : second) differences.push_back(b - a);
  }
  std::sort(differences.begin(), differences.end());
  Shift result{.shift = *median(differences), .interval = {}};
  const std::size_t k = order_of_end(first.size(), second.size(), 0.5 - 0.5 * confidence);
  if (k > 0) result.interval = Interval{differences[k - 1], differences[differences.size() - k]};
  return result;
}

}  // namespace ringfall::stats
