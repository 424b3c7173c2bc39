// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include "stats/interval.h"

namespace ringfall::stats {

/// A trend common to several groups that each have a level of their own (set-ups, seasons); wild values hardly move it.
struct TrendWithin {
  double slope = 0.0;                ///< median of the slopes of all pairs within a group
  std::optional<Interval> interval;  ///< nullopt: too few pairs for this confidence
  std::size_t pairs = 0;
  double p = 1.0;                    ///< two-sided, against no trend: sum of Kendall's S over the groups, normal approximation
};

/// x, group, y: same length, finite. Pairs of equal x are left out, pairs of equal y count in the slope as 0.
/// The interval's ends are order statistics of the slopes, C = z sqrt(sum of the groups' variances of S) apart; p with the
/// correction for continuity. Coverage and claims measured: docs/measures/comparison.md#figures.
/// nullopt: no pair of different x within a group. Cost: n^2 log n.
/// Source: seasonal Kendall test and slope, Hirsch, Slack & Smith 1982; interval Gilbert 1987, 17.3. Tested: stats.TrendWithin.*
std::optional<TrendWithin> trend_within(std::span<const double> x, std::span<const std::size_t> group,
                                        std::span<const double> y, double confidence = kConfidence);

}  // namespace ringfall::stats
