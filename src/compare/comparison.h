// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "compare/answer.h"
#include "compare/measure.h"
#include "compare/number_difference.h"
#include "compare/outlying_shots.h"
#include "compare/session.h"
#include "compare/shooting_order.h"
#include "compare/tone_change.h"
#include "compare/tone_pool.h"

namespace ringfall::compare {

struct SetUpComparison {
  std::string setup;
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
  std::optional<double> wanted_difference;   ///< of the main number, stated by who asks; not 0
  std::vector<OutlyingShot> outlying;        ///< of all numbers, the main number's first
  std::vector<Answer> answers;               ///< against the baseline in the order of `against`, then against controls
  std::vector<Ranking> rankings;             ///< exposure_db, hum, ping (a table: its main number), and the main number
  std::vector<Control> controls;
  std::vector<Finding> findings;             ///< confounders and other doubts
};

/// Holds every set-up of a session against the baseline: difference of means with a 95 % interval, block means being the data, how much blocks
/// wander learnt from all blocks of the session whatever their set-up (stats/block_spread.h); several sessions (evenings) each keep a level of
/// their own; permutation of block means within sessions. Holm over the set-ups for the main number; the others share their error within their
/// family (compare/measure.h) over all set-ups, its leads carrying half of it: a difference that only its own p carries is a hint. Checks of
/// the chain are adjusted with nothing. Values that a finding voided are not there and are counted out; where a bound is known it counts.
/// `tones`: of TonePool::read, may be empty. `go_on` is asked from number to number (10 ms) and may stop it: then the comparison is
/// empty. Definitions: docs/measures/comparison.md.
/// RequestFailure: an unknown baseline or number (the nearest name is suggested), fewer than two set-ups.
Comparison compare_setups(const Session& session, const std::optional<std::string>& baseline,
                          const std::string& main_number, const std::vector<SetUpTones>& tones = {},
                          const std::function<bool()>& go_on = {});

/// The part of it that needs no numbers, for before the sound is measured. RequestFailure as compare_setups; `setups` are the
/// set-ups that count.
void check_question(const std::vector<std::string>& setups, const std::optional<std::string>& baseline,
                    const std::vector<Measure>& measures, const std::string& main_number);

}  // namespace ringfall::compare
