// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "compare/session.h"
#include "compare/verdict.h"
#include "shot/numbers.h"
#include "stats/difference.h"

namespace ringfall::compare {

/// One number of one set-up over its shots.
struct Spread {
  std::size_t n = 0;
  std::optional<double> mean;
  std::optional<double> deviation;  ///< standard deviation over shots
};

/// One number of one set-up against the baseline.
struct NumberDifference {
  const shot::Number* number = nullptr;
  Spread baseline;
  Spread setup;
  std::optional<stats::Difference> difference;  ///< set-up minus baseline; nullopt: too few values, or all alike
  double permutation_p = 1.0;                   ///< labels exchanged between the units
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
  std::vector<NumberDifference> numbers;  ///< the main number first, then in the order of shot::numbers()
};

struct Comparison {
  std::string baseline;
  std::string main_number;
  std::vector<std::string> setups;           ///< the baseline first
  std::vector<SetUpComparison> against;      ///< one a set-up other than the baseline
  std::vector<Finding> findings;             ///< confounders and other doubts
};

/// Holds every set-up of a session against the baseline: difference of means with a 95 % interval, block means being the data
/// when both set-ups have two blocks or more, else the shots; permutation of the same units; Holm over all but the main
/// number. Values that a finding voided are not there and are counted out. Definitions: docs/measures/comparison.md.
/// RequestFailure: an unknown baseline or number (the nearest name is suggested), fewer than two set-ups.
Comparison compare_setups(const Session& session, const std::optional<std::string>& baseline,
                          const std::string& main_number);

/// Values of a number, block by block, of one set-up.
stats::Blocks values_of(const Session& session, const std::string& setup, const shot::Number& number);

}  // namespace ringfall::compare
