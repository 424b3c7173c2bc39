// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>

#include "compare/measure.h"
#include "compare/session.h"
#include "compare/verdict.h"
#include "stats/block_spread.h"
#include "stats/hodges_lehmann.h"

namespace ringfall::compare {

/// One number of one set-up over what counts: its shots in the sessions in which both set-ups have the number.
struct Spread {
  std::size_t n = 0;        ///< shots with a value
  std::size_t blocks = 0;   ///< with a value
  std::size_t bounded = 0;  ///< shots without one, of which it is known how high it can be at most
  /// Of the block means, the sessions weighted as the difference weights them: set-up less baseline is the difference.
  std::optional<double> mean;
  /// With `bounded` shots: the mean lies in here, whatever hides; `mean` is the middle of it.
  std::optional<stats::Interval> mean_between;
  std::optional<stats::Interval> interval;  ///< 95 % of the mean, by the spread that the difference's error has
  std::optional<double> deviation;          ///< standard deviation of shots about their session's mean
};

/// Whose blocks tell how much blocks wander.
enum class SpreadFrom {
  these_blocks,    ///< those of the two set-ups, in the sessions compared
  these_sessions,  ///< and of other set-ups in them
  logbook,         ///< and of other sessions
  assumed          ///< no block was repeated: 0.7 of the shots' scatter is taken (stats::kAssumedWander)
};

/// What the interval of a difference rests on.
struct Rests {
  SpreadFrom from = SpreadFrom::these_blocks;
  Ground ground = Ground::repeated_blocks;
  double blocks_df = 0.0;                 ///< degrees of freedom of blocks that are known, over all that count
  std::optional<double> wander;           ///< standard deviation of blocks beyond their shots' scatter; nullopt: not known
  std::optional<double> shot_deviation;   ///< within blocks
  bool own_spreads = false;               ///< unequal numbers of blocks: each set-up's own spread counts (Satterthwaite)
  bool at_floor = false;                  ///< blocks agreed better than their shots' scatter lets them
};

/// One number of one set-up against the baseline.
struct NumberDifference {
  std::shared_ptr<const Measure> number;  ///< never null
  std::size_t sessions = 0;               ///< with both set-ups; the others don't count
  Spread baseline;
  Spread setup;
  /// Set-up minus baseline; nullopt: too few values, or all alike. With bounded shots the interval covers all that may hide, the difference
  /// is the middle, p that of the end nearer to 0.
  std::optional<stats::Difference> difference;
  std::optional<double> at_least;  ///< with bounded shots, the interval excluding 0: what the difference is at least (signed, nearest to 0)
  Rests rests;
  std::optional<stats::Evenings> evenings;      ///< of two sessions or more
  std::optional<double> unit_deviation;         ///< standard deviation from block mean to block mean, as the difference's error has it
  std::optional<stats::Difference> with_drops;  ///< with what was left out as well; nullopt: it adds no value, or no answer
  bool drops_add_nothing = false;               ///< something was left out, but no value of this number that would count
  /// Median of the differences of all pairs of block means (of shots where a set-up has one block), which a wild one hardly moves; one
  /// session only.
  std::optional<stats::Shift> robust;
  double permutation_p = 1.0;           ///< labels exchanged between the blocks of a session
  double smallest_permutation_p = 1.0;  ///< that so many blocks can give at all
  double adjusted_p = 1.0;              ///< after Holm in its family: comparison.h
  Verdict verdict = Verdict::not_settled;
  /// Blocks each set-up needs to settle it with 80 % chance, if the true difference and spread are as found; more than there are now.
  /// nullopt: it is settled, or 100 000 would not do.
  std::optional<std::size_t> units_to_settle;
};

/// What a number's difference is, before anything is adjusted for the company it is in. How much blocks wander is learnt from all blocks of
/// the session that count, whatever their set-up and evening. Definition: docs/measures/comparison.md#what-is-compared.
NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup, const Measure& measure);

/// What a stated difference would need.
struct UnitsNeeded {
  std::size_t each = 0;            ///< blocks a set-up for 80 % power
  std::size_t more_baseline = 0;   ///< beyond those there are
  std::size_t more_setup = 0;
};

/// Blocks to find `wanted` (not 0) significant with 80 % power, the spread from block to block being as found. nullopt: no spread known, or
/// more than 100 000.
std::optional<UnitsNeeded> units_for_difference(const NumberDifference& row, double wanted);

}  // namespace ringfall::compare
