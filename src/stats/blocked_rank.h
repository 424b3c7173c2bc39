// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "stats/rank.h"

namespace ringfall::stats {

/// How alike the values of one group are, against all: 1 the same within each group, 0 no more than by chance (what falls below
/// is 0). (MSB - MSW) / (MSB + (m - 1) MSW) of the one-way analysis of variance, m their size (of unequal ones (n - sum of squares / n) / (groups - 1)).
/// Groups hold finite values; empty ones are left out. nullopt: under two groups, none with two values, or no spread at all.
/// Source: Shrout & Fleiss 1979, ICC(1,1); m of unequal groups: Snedecor & Cochran, Statistical Methods (from memory). Tested: stats.BlockedRank.*
std::optional<double> intraclass_correlation(std::span<const std::vector<double>> groups);

/// Pairs that come in blocks share their block's luck, in x and in y, so they tell less than as many pairs each of its own.
struct BlockedRank {
  RankAgreement agreement;     ///< the coefficient over all pairs; p and interval by effective_n
  double effective_n = 0.0;    ///< independent pairs that would tell as much; n when either list does not cling to its blocks
};

/// As spearman() and kendall(); `blocks`: for each pair the block it was shot in, any numbers.
/// effective_n = n / (1 + (m - 1) icc_x icc_y), intraclass correlations of the ranks, m = sum of squared block sizes / n
/// (Scott & Holt 1982, for a slope). Where that is under n: the interval has Student's quantile of effective_n - 2; p is Student's
/// too, of the coefficient over its deviation without relation; with fewer than five effective pairs p is 1, without interval. False claims and power: docs/measures/statistics.md#pairs-in-blocks.
std::optional<BlockedRank> kendall_in_blocks(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> blocks,
                                             double confidence = kConfidence, std::uint64_t seed = kSeed);
std::optional<BlockedRank> spearman_in_blocks(std::span<const double> x, std::span<const double> y, std::span<const std::size_t> blocks,
                                              double confidence = kConfidence, std::uint64_t seed = kSeed);

}  // namespace ringfall::stats
