// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/rank_distributions.h"

#include <algorithm>

#include "base/check.h"

namespace ringfall::stats {

std::vector<double> discordant_pair_chances(std::size_t n) {
  check(n >= 1, "at least one value");
  std::vector<double> chances{1.0};
  for (std::size_t k = 2; k <= n; ++k) {
    // The k-th value falls behind 0 .. k-1 of the others, each equally likely.
    std::vector<double> next(chances.size() + k - 1, 0.0);
    for (std::size_t i = 0; i < chances.size(); ++i) {
      for (std::size_t j = 0; j < k; ++j) next[i + j] += chances[i] / static_cast<double>(k);
    }
    chances = std::move(next);
  }
  return chances;
}

std::vector<double> mann_whitney_chances(std::size_t n1, std::size_t n2) {
  check(n1 >= 1 && n2 >= 1, "at least one value a group");
  // row[j]: chances for i of the first group and j of the second; the largest of the i + j values is the first group's
  // (and then beats all j) with chance i / (i + j).
  std::vector<std::vector<double>> row(n2 + 1, std::vector<double>{1.0});
  for (std::size_t i = 1; i <= n1; ++i) {
    for (std::size_t j = 1; j <= n2; ++j) {
      const double first_largest = static_cast<double>(i) / static_cast<double>(i + j);
      std::vector<double> next(i * j + 1, 0.0);
      for (std::size_t u = 0; u < row[j].size(); ++u) next[u + j] += first_largest * row[j][u];
      for (std::size_t u = 0; u < row[j - 1].size(); ++u) {
        next[u] += (1.0 - first_largest) * row[j - 1][u];
      }
      row[j] = std::move(next);
    }
  }
  return row[n2];
}

std::size_t order_from_chances(std::span<const double> chances, double tail) {
  double below = 0.0;
  std::size_t k = 0;
  // A tail that a chance meets exactly (1/20 at 90 %) must not be missed by rounding.
  const double most = tail * (1.0 + 1e-9);
  while (k < chances.size() && below + chances[k] <= most) below += chances[k++];
  return k;
}

}  // namespace ringfall::stats
