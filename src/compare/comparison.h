// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "compare/measure.h"
#include "compare/outlying_shots.h"
#include "compare/session.h"
#include "compare/shooting_order.h"
#include "compare/tone_change.h"
#include "compare/tone_pool.h"
#include "compare/values.h"
#include "compare/verdict.h"
#include "stats/difference.h"
#include "stats/hodges_lehmann.h"

namespace ringfall::compare {

/// One number of one set-up over its shots.
struct Spread {
  std::size_t n = 0;
  std::optional<double> mean;
  std::optional<double> deviation;  ///< standard deviation over shots
};

/// One number of one set-up against the baseline.
struct NumberDifference {
  std::shared_ptr<const Measure> number;  ///< never null
  Spread baseline;
  Spread setup;
  std::optional<stats::Difference> difference;  ///< set-up minus baseline; nullopt: too few values, or all alike
  std::optional<stats::Difference> with_drops;  ///< with what was left out as well; nullopt: nothing was, or no answer
  /// Median of the differences of all pairs, which a wild shot hardly moves; one session only, shots or blocks as the unit is.
  std::optional<stats::Shift> robust;
  double permutation_p = 1.0;                   ///< labels exchanged between the units of a session
  double adjusted_p = 1.0;                      ///< after Holm over all but the main number
  Verdict verdict = Verdict::not_settled;
  /// Units (shots or blocks) each set-up would need for a verdict, when it is not settled.
  std::optional<std::size_t> units_to_settle;
};

struct SetUpComparison {
  std::string setup;
  stats::Unit unit = stats::Unit::shot;
  std::size_t baseline_units = 0;
  std::size_t setup_units = 0;
  std::vector<NumberDifference> numbers;  ///< the main number first, then in the order of measures_of()
  ShootingOrder order;
  /// What of the main number's difference would be drift, if the drift of the session was steady: slope times how far the
  /// set-ups lie apart. Shown, not taken off. nullopt: drift not known.
  std::optional<double> drift_in_difference;
  std::vector<ToneChange> tones;          ///< in order of frequency; empty without the sound
};

struct Comparison {
  std::string baseline;
  std::string main_number;
  std::vector<std::string> setups;           ///< the baseline first
  std::vector<SetUpComparison> against;      ///< one a set-up other than the baseline
  std::optional<DriftSeen> drift;            ///< of the main number over the shooting order
  std::vector<OutlyingShot> outlying;        ///< of all numbers, the main number's first
  std::vector<Finding> findings;             ///< confounders and other doubts
};

/// Holds every set-up of a session against the baseline: difference of means with a 95 % interval, block means being the data
/// when both set-ups have two blocks or more, else the shots; several sessions (evenings) each keep a level of their own;
/// permutation of the same units within sessions; Holm over all but the main number. Values that a finding voided are not
/// there and are counted out. `tones`: of TonePool::read, may be empty. Definitions: docs/measures/comparison.md.
/// RequestFailure: an unknown baseline or number (the nearest name is suggested), fewer than two set-ups.
Comparison compare_setups(const Session& session, const std::optional<std::string>& baseline,
                          const std::string& main_number, const std::vector<SetUpTones>& tones = {});

/// The part of it that needs no numbers, for before the sound is measured. RequestFailure as compare_setups; `setups` are the
/// set-ups that count.
void check_question(const std::vector<std::string>& setups, const std::optional<std::string>& baseline,
                    const std::vector<Measure>& measures, const std::string& main_number);

}  // namespace ringfall::compare
