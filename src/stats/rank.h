// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "stats/interval.h"
#include "stats/random.h"

namespace ringfall::stats {

/// Ranks from 1, ties share their mean rank. Values finite.
std::vector<double> ranks(std::span<const double> values);

/// The coefficients alone, cheap enough for a bootstrap; x, y and nullopt as spearman() and kendall() below, from two pairs.
std::optional<double> spearman_rho(std::span<const double> x, std::span<const double> y);
std::optional<double> kendall_tau(std::span<const double> x, std::span<const double> y);

/// How a p value was found.
enum class PMethod { exact, sampled, approximate };

/// Do two lists agree in order? 1 the same, -1 reversed, 0 no relation.
struct RankAgreement {
  double coefficient = 0.0;
  std::size_t n = 0;
  double p = 1.0;  ///< two-sided, against no relation
  PMethod method = PMethod::exact;
  double approximate_p = 1.0;  ///< Spearman: t with n - 2; Kendall: normal with ties
  std::optional<Interval> interval =
      std::nullopt;  ///< by Fisher's z; nullopt: too few pairs, or |coefficient| is 1
};

/// x, y: same length, finite. nullopt: fewer than three pairs, or one list all equal.
/// Tested: stats.Rank.*

/// Spearman's rho. p: exact over all n! orders, ties and all, up to 12 pairs; above that 100 000 orders are drawn.
/// Interval: Bonett & Wright 2000, variance (1 + rho^2 / 2) / (n - 3); needs 4 pairs.
std::optional<RankAgreement> spearman(std::span<const double> x, std::span<const double> y,
                                      double confidence = kConfidence, std::uint64_t seed = kSeed);

/// Kendall's tau-b. p: exact without ties up to 60 pairs and with ties up to 8; 100 000 orders drawn with ties up to 60
/// pairs; above that the normal approximation. Interval: variance 0.437 / (n - 4) (Fieller and others 1957); needs 5 pairs.
std::optional<RankAgreement> kendall(std::span<const double> x, std::span<const double> y,
                                     double confidence = kConfidence, std::uint64_t seed = kSeed);

/// The fewest pairs that find a true rho of this size significant (two-sided alpha) with this power, Spearman's. By Fisher's z, normal:
/// variance 1 / (n - 3) without relation, (1 + rho^2 / 2) / (n - 3) with it (Bonett & Wright 2000); 5 at least, the fewest that can
/// reach p 0.05. nullopt: rho is 0 or more than 100 000 pairs are needed. Measured: docs/measures/statistics.md#settling.
std::optional<std::size_t> pairs_for_power(double rho, double power = 0.8, double alpha = 0.05);

}  // namespace ringfall::stats
