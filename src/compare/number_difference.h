// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>

#include "compare/measure.h"
#include "compare/session.h"
#include "compare/verdict.h"
#include "stats/difference.h"
#include "stats/hodges_lehmann.h"

namespace ringfall::compare {

/// One number of one set-up over what counts: its shots in the sessions in which both set-ups have the number.
struct Spread {
  std::size_t n = 0;                ///< shots
  std::size_t blocks = 0;           ///< with a value
  std::size_t units = 0;            ///< of the difference: shots, or blocks
  /// Of the units, the sessions weighted as the difference weights them: set-up less baseline is the difference.
  std::optional<double> mean;
  /// 95 % of the mean, over units: shots of one session by their own spread, else by the spread common to both set-ups.
  std::optional<stats::Interval> interval;
  std::optional<double> deviation;  ///< standard deviation of shots about their session's mean
};

/// One number of one set-up against the baseline.
struct NumberDifference {
  std::shared_ptr<const Measure> number;  ///< never null
  stats::Unit unit = stats::Unit::shot;   ///< by the values this number has: a block without one is none
  std::size_t sessions = 0;               ///< with both set-ups; the others don't count
  Spread baseline;
  Spread setup;
  std::optional<stats::Difference> difference;  ///< set-up minus baseline; nullopt: too few values, or all alike
  std::optional<double> unit_deviation;         ///< standard deviation from unit to unit, as the difference's error has it
  std::optional<stats::Difference> with_drops;  ///< with what was left out as well; nullopt: it adds no value, or no answer
  bool drops_add_nothing = false;               ///< something was left out, but no value of this number that would count
  /// Median of the differences of all pairs, which a wild shot hardly moves; one session only, shots or blocks as the unit is.
  std::optional<stats::Shift> robust;
  double permutation_p = 1.0;           ///< labels exchanged between the units of a session
  double smallest_permutation_p = 1.0;  ///< that so many units can give at all
  double adjusted_p = 1.0;              ///< after Holm: comparison.h
  Verdict verdict = Verdict::not_settled;
  /// Units each set-up needs to settle it with 80 % chance, if the true difference and spread are as found; more than there are now.
  /// nullopt: it is settled, only blocks could, or 100 000 would not do.
  std::optional<std::size_t> units_to_settle;
};

/// What a number's difference is, before anything is adjusted for the company it is in.
NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup, const Measure& measure);

/// What a stated difference would need.
struct UnitsNeeded {
  std::size_t each = 0;            ///< units a set-up for 80 % power
  std::size_t more_baseline = 0;   ///< beyond those there are
  std::size_t more_setup = 0;
};

/// Units to find `wanted` (not 0) significant with 80 % power, the spread from unit to unit being as found. nullopt: no spread known, or
/// more than 100 000.
std::optional<UnitsNeeded> units_for_difference(const NumberDifference& row, double wanted);

}  // namespace ringfall::compare
