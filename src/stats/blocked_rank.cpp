// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/blocked_rank.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/check.h"
#include "stats/anova.h"
#include "stats/distributions.h"

namespace ringfall::stats {
namespace {

constexpr double kFewestEffective = 5.0;

/// Variances of a coefficient of n independent pairs: of tau or rho itself when there is no relation, and of its artanh.
struct Variances {
  double without_relation;
  double of_artanh;
};

bool spread_between(std::span<const std::vector<double>> groups) {
  std::optional<double> first;
  for (const auto& group : groups) {
    if (group.empty()) continue;
    if (!first) first = group.front();
    if (group.front() != *first) return true;
  }
  return false;
}

double clinging(std::span<const double> values, std::span<const std::size_t> blocks) {
  const std::vector<double> ranked = ranks(values);
  std::map<std::size_t, std::vector<double>> groups;
  for (std::size_t k = 0; k < ranked.size(); ++k) groups[blocks[k]].push_back(ranked[k]);
  std::vector<std::vector<double>> lists;
  for (auto& [block, list] : groups) lists.push_back(std::move(list));
  return intraclass_correlation(lists).value_or(0.0);
}

double effective_pairs(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> blocks) {
  std::map<std::size_t, double> sizes;
  for (const std::size_t block : blocks) sizes[block] += 1.0;
  double squares = 0.0;
  for (const auto& [block, size] : sizes) squares += size * size;
  const auto n = static_cast<double>(x.size());
  return n / (1.0 + (squares / n - 1.0) * clinging(x, blocks) * clinging(y, blocks));
}

/// p and interval of a coefficient that effective_n independent pairs would give.
BlockedRank of_fewer(double r, std::size_t n, double effective_n, const Variances& variances, double confidence) {
  BlockedRank result{{.coefficient = r, .n = n, .p = 1.0, .method = PMethod::approximate}, effective_n};
  if (effective_n < kFewestEffective) return result;
  RankAgreement& agreement = result.agreement;
  const double df = effective_n - 2.0;
  agreement.p = agreement.approximate_p = student_t_two_sided_p(r / std::sqrt(variances.without_relation), df);
  if (std::abs(r) < 1.0) {
    const double z = std::atanh(r);
    const double reach = student_t_quantile(0.5 + 0.5 * confidence, df) * std::sqrt(variances.of_artanh);
    agreement.interval = Interval{std::tanh(z - reach), std::tanh(z + reach)};
  }
  return result;
}

}  // namespace

std::optional<double> intraclass_correlation(std::span<const std::vector<double>> groups) {
  std::size_t values = 0;
  std::size_t filled = 0;
  double size_squares = 0.0;
  for (const auto& group : groups) {
    const auto size = static_cast<double>(group.size());
    values += group.size();
    filled += group.empty() ? 0 : 1;
    size_squares += size * size;
  }
  if (filled < 2 || filled == values) return std::nullopt;
  const auto anova = one_way_anova(groups);
  if (!anova) return spread_between(groups) ? std::optional(1.0) : std::nullopt;  // none within any group
  const auto n = static_cast<double>(values);
  const double size = (n - size_squares / n) / anova->between_df;
  const double between = anova->between_mean_square;
  const double within = anova->within_mean_square;
  return std::max(0.0, (between - within) / (between + (size - 1.0) * within));
}

std::optional<BlockedRank> kendall_in_blocks(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> blocks,
                                             double confidence, std::uint64_t seed) {
  check(x.size() == blocks.size(), "a block for each pair");
  const auto tau = kendall_tau(x, y);
  if (!tau || x.size() < 3) return std::nullopt;
  const double n = effective_pairs(x, y, blocks);
  if (n >= static_cast<double>(x.size())) return BlockedRank{*kendall(x, y, confidence, seed), n};
  const Variances variances{2.0 * (2.0 * n + 5.0) / (9.0 * n * (n - 1.0)), 0.437 / (n - 4.0)};
  return of_fewer(*tau, x.size(), n, variances, confidence);
}

std::optional<BlockedRank> spearman_in_blocks(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> blocks,
                                              double confidence, std::uint64_t seed) {
  check(x.size() == blocks.size(), "a block for each pair");
  const auto rho = spearman_rho(x, y);
  if (!rho || x.size() < 3) return std::nullopt;
  const double n = effective_pairs(x, y, blocks);
  if (n >= static_cast<double>(x.size())) return BlockedRank{*spearman(x, y, confidence, seed), n};
  return of_fewer(*rho, x.size(), n, {1.0 / (n - 1.0), (1.0 + 0.5 * *rho * *rho) / (n - 3.0)}, confidence);
}

}  // namespace ringfall::stats
