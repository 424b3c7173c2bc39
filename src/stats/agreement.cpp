// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/agreement.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

double weight(std::size_t i, std::size_t j, std::size_t classes, KappaWeights weights) {
  if (weights == KappaWeights::none) return i == j ? 1.0 : 0.0;
  const double apart =
      (static_cast<double>(i) - static_cast<double>(j)) / (static_cast<double>(classes) - 1.0);
  return 1.0 - (weights == KappaWeights::linear ? std::abs(apart) : apart * apart);
}

}  // namespace

std::optional<Kappa> weighted_kappa(const std::vector<std::vector<std::size_t>>& table,
                                    KappaWeights weights, double confidence) {
  check_share(confidence);
  const std::size_t classes = table.size();
  double total = 0.0;
  std::vector<double> rows(classes, 0.0);
  std::vector<double> columns(classes, 0.0);
  for (std::size_t i = 0; i < classes; ++i) {
    check(table[i].size() == classes, "a square table");
    for (std::size_t j = 0; j < classes; ++j) {
      const auto count = static_cast<double>(table[i][j]);
      total += count;
      rows[i] += count;
      columns[j] += count;
    }
  }
  if (total == 0.0 || classes < 2) return std::nullopt;

  double observed = 0.0;
  double by_chance = 0.0;
  std::vector<double> row_weight(classes, 0.0);
  std::vector<double> column_weight(classes, 0.0);
  for (std::size_t i = 0; i < classes; ++i) {
    for (std::size_t j = 0; j < classes; ++j) {
      const double w = weight(i, j, classes, weights);
      observed += w * static_cast<double>(table[i][j]) / total;
      by_chance += w * rows[i] * columns[j] / (total * total);
      row_weight[i] += w * columns[j] / total;
      column_weight[j] += w * rows[i] / total;
    }
  }
  if (by_chance >= 1.0) return std::nullopt;

  Kappa result;
  result.kappa = (observed - by_chance) / (1.0 - by_chance);
  double mean_square = 0.0;
  for (std::size_t i = 0; i < classes; ++i) {
    for (std::size_t j = 0; j < classes; ++j) {
      const double term = weight(i, j, classes, weights) -
                          (row_weight[i] + column_weight[j]) * (1.0 - result.kappa);
      mean_square += static_cast<double>(table[i][j]) / total * term * term;
    }
  }
  const double shift = result.kappa - by_chance * (1.0 - result.kappa);
  result.standard_error =
      std::sqrt(std::max(0.0, mean_square - shift * shift) / total) / (1.0 - by_chance);
  const double reach = normal_quantile(0.5 + 0.5 * confidence) * result.standard_error;
  result.interval = {result.kappa - reach, result.kappa + reach};
  return result;
}

}  // namespace ringfall::stats
