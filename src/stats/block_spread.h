// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "stats/difference.h"
#include "stats/stratified.h"

namespace ringfall::stats {

/// How shots scatter within blocks and how blocks wander, from any number of cells (one set-up within one session) that each have a
/// level of their own: nested analysis of variance, unequal blocks by the textbook's n0. A block is one draw of placing, stance and day.
struct BlockSpread {
  double shot_square = 0.0;   ///< mean square within blocks: the variance of a shot; 0 without a degree of freedom
  double shot_df = 0.0;
  double block_square = 0.0;  ///< mean square between blocks of a cell, over n0: variance of the mean of a block of n0 shots
  double block_df = 0.0;      ///< sum of blocks - 1 over cells
  double n0 = 1.0;            ///< shots a block, as the textbook averages unequal ones
  std::size_t blocks = 0;
  std::size_t cells = 0;

  /// Variance of the blocks' wander alone, never below 0: block_square - shot_square / n0.
  double wander_square() const;
};

/// Cells without a value are left out. Values finite. Source: Searle 1971 (unequal nested analysis of variance, n0), textbook.
BlockSpread spread_of_blocks(std::span<const Blocks> cells);

/// What is taken where no block was repeated: blocks wander with 0.7 of the shots' deviation, as sure as 4 degrees of freedom make it:
/// the interval then covers a wander up to about the shots' own. Own, from trade practice without a source; docs/measures/statistics.md.
inline constexpr double kAssumedWander = 0.7;
inline constexpr double kAssumedDf = 4.0;
/// Fewer degrees of freedom of blocks than this are joined with the assumption.
inline constexpr double kFewestBlockDf = 2.0;

/// Does the difference between two set-ups hang on the evening?
struct Evenings {
  std::vector<double> differences;  ///< second minus first, session by session, those that have both
  double f = 0.0;                   ///< their spread over what blocks explain
  double p = 1.0;                   ///< of that ratio; 1 where blocks are not known
  bool disagree = false;            ///< p under 0.05
};

/// A difference of two set-ups over blocks and sessions.
struct BlockedDifference {
  Difference difference;             ///< second minus first, mean over sessions weighted n1 n2 / (n1 + n2) blocks
  bool assumed = false;              ///< the assumption has a part in it
  bool own_spreads = false;          ///< unequal numbers: each set-up's own spread counts where it is the larger (Satterthwaite)
  bool at_floor = false;             ///< blocks agreed better than their shots' scatter lets them: that scatter alone is the error
  std::optional<Evenings> evenings;  ///< of two sessions or more
};

/// Difference of two set-ups of `sessions` (those with both count), `spread` being that of all cells that are known, these and others.
/// One session: variance of a block mean = wander + shots / n. The interval is never narrower than that of the shots alone. As many blocks of each: the common spread with its
/// degrees of freedom. Unequal numbers: of each set-up the larger of its own and the common spread, degrees of freedom after Satterthwaite
/// 1946 from its own blocks, unless eight degrees of freedom of other blocks stand against and an F test at 5 % does not.
/// Several sessions: four or more: the sessions' own differences are the data (Student). Two or three: the same when they disagree (F, p
/// under 0.2) or no block was repeated; else twice the blocks' variance counts as two degrees of freedom beside them, and never less than the
/// blocks' variance: evening x set-up is a component that two evenings can't tell. Under two degrees of freedom of blocks the assumption
/// joins. Coverage and claims: docs/measures/statistics.md#designs. Tests: stats.BlockSpread.*, compare.Honesty.*
/// nullopt: no session has both, or no spread at all.
std::optional<BlockedDifference> difference_over_blocks(std::span<const SessionBlocks> sessions, const BlockSpread& spread,
                                                        double confidence = kConfidence);

}  // namespace ringfall::stats
