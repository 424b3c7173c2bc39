// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace ringfall::stats {

/// One-way analysis of variance: does any group's mean differ?
struct Anova {
  double between_df = 0.0;
  double within_df = 0.0;
  double between_sum_of_squares = 0.0;
  double within_sum_of_squares = 0.0;
  double between_mean_square = 0.0;
  double within_mean_square =
      0.0;  ///< its root is the shot standard deviation common to all groups
  double f = 0.0;
  double p = 1.0;
  double r_squared = 0.0;
};

/// groups: finite values of one unit; empty groups are left out. nullopt: fewer than two groups, no group with two
/// values, or no spread within any group. Accuracy: NIST StRD SmLs07 (13 constant digits) to what its values hold as
/// doubles. Tested: stats.Anova.*
std::optional<Anova> one_way_anova(std::span<const std::vector<double>> groups);

}  // namespace ringfall::stats
