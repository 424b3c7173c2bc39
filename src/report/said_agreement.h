// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "compare/session.h"
#include "shot/numbers.h"
#include "stats/rank.h"

namespace ringfall::report {

/// Do the archer's ratings put the shots into the order that a number puts them into?
struct Agreement {
  std::string rating;                    ///< "hum", "ping", "loud", "feel"
  const shot::Number* number = nullptr;  ///< what it is held against
  bool opposite_expected = false;        ///< a better feel goes with less hum
  std::vector<std::string> setups;       ///< of each pair
  std::vector<double> said;
  std::vector<double> measured;
  std::optional<stats::RankAgreement> rank;  ///< Kendall's tau-b; nullopt: under three pairs, or no spread
  std::string sentence;                      ///< "not settled" whenever the interval holds 0
};

/// Hum rating against hum, ping against ping, loud against loudness, feel against hum, over all shots that have both (dropped blocks left out);
/// pairs of which no shot has both are left out. Definition: docs/measures/report.md#words. Tests: report.Agreement.*
std::vector<Agreement> agreements(const compare::Session& session);

}  // namespace ringfall::report
