// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/difference.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

std::optional<Difference> with_error(double difference, double standard_error, double df,
                                     double confidence) {
  if (standard_error == 0.0) return std::nullopt;
  const double t = difference / standard_error;
  const double reach = student_t_quantile(0.5 + 0.5 * confidence, df) * standard_error;
  return Difference{.difference = difference,
                    .standard_error = standard_error,
                    .df = df,
                    .t = t,
                    .p = student_t_two_sided_p(t, df),
                    .interval = {difference - reach, difference + reach}};
}

void check_groups(std::span<const double> first, std::span<const double> second,
                  double confidence) {
  check_finite(first);
  check_finite(second);
  check_share(confidence);
}

std::size_t blocks_with_shots(const Blocks& blocks) {
  return static_cast<std::size_t>(std::count_if(blocks.begin(), blocks.end(),
                                                [](const auto& block) { return !block.empty(); }));
}

std::vector<double> all_shots(const Blocks& blocks) {
  std::vector<double> shots;
  for (const std::vector<double>& block : blocks)
    shots.insert(shots.end(), block.begin(), block.end());
  return shots;
}

}  // namespace

std::optional<Difference> welch_difference(std::span<const double> first,
                                           std::span<const double> second, double confidence) {
  check_groups(first, second, confidence);
  if (first.size() < 2 || second.size() < 2) return std::nullopt;
  const double n1 = static_cast<double>(first.size());
  const double n2 = static_cast<double>(second.size());
  const double v1 = squares_about_mean(first) / (n1 - 1.0) / n1;
  const double v2 = squares_about_mean(second) / (n2 - 1.0) / n2;
  const double variance = v1 + v2;
  if (variance == 0.0) return std::nullopt;
  // In shares of the whole, so that tiny variances do not underflow when squared.
  const double s1 = v1 / variance;
  const double s2 = v2 / variance;
  const double df = 1.0 / (s1 * s1 / (n1 - 1.0) + s2 * s2 / (n2 - 1.0));
  return with_error(plain_mean(second) - plain_mean(first), std::sqrt(variance), std::max(df, 1.0),
                    confidence);
}

std::optional<Difference> pooled_difference(std::span<const double> first,
                                            std::span<const double> second, double confidence) {
  check_groups(first, second, confidence);
  if (first.empty() || second.empty() || first.size() + second.size() < 3) return std::nullopt;
  const double n1 = static_cast<double>(first.size());
  const double n2 = static_cast<double>(second.size());
  const double df = n1 + n2 - 2.0;
  const double variance = (squares_about_mean(first) + squares_about_mean(second)) / df;
  return with_error(plain_mean(second) - plain_mean(first),
                    std::sqrt(variance * (1.0 / n1 + 1.0 / n2)), df, confidence);
}

Unit unit_of(const Blocks& first, const Blocks& second) {
  return blocks_with_shots(first) >= 2 && blocks_with_shots(second) >= 2 ? Unit::block : Unit::shot;
}

std::vector<double> block_means(const Blocks& blocks) {
  std::vector<double> means;
  for (const std::vector<double>& block : blocks) {
    if (const std::optional<double> m = mean(block)) means.push_back(*m);
  }
  return means;
}

std::optional<Difference> blocked_difference(const Blocks& first, const Blocks& second, Unit unit,
                                             double confidence) {
  if (unit == Unit::block)
    return pooled_difference(block_means(first), block_means(second), confidence);
  return welch_difference(all_shots(first), all_shots(second), confidence);
}

}  // namespace ringfall::stats
