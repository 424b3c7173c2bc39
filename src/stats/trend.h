// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "stats/interval.h"
#include "stats/rank.h"

namespace ringfall::stats {

/// A trend that single wild values hardly move.
struct RobustTrend {
  double slope = 0.0;                ///< median of the slopes of all pairs (Theil 1950, Sen 1968)
  double intercept = 0.0;            ///< median y - slope median x
  std::optional<Interval> interval;  ///< of the slope; nullopt: too few points for this confidence
};

/// x, y: same length, finite; pairs of equal x are left out. The interval's ends are order statistics of the slopes, ranks
/// from the exact distribution of Kendall's S without ties in x up to 60 points (5 points are the fewest for 95 %), else
/// from its normal approximation. nullopt: no two different x. Cost: n^2 log n. Tested: stats.Trend.*
std::optional<RobustTrend> theil_sen(std::span<const double> x, std::span<const double> y,
                                     double confidence = kConfidence);

/// Is there a rise or fall along x at all? Mann-Kendall: Kendall's tau of the values with x. nullopt as kendall().
std::optional<RankAgreement> mann_kendall(std::span<const double> x, std::span<const double> y);

}  // namespace ringfall::stats
