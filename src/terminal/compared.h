// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/comparison.h"
#include "terminal/requests.h"
#include "terminal/session_measure.h"

namespace ringfall::terminal {

/// A session and what came of comparing its set-ups.
struct Compared {
  MeasuredSession measured;  ///< recordings: of a folder or table of recordings only
  std::vector<compare::SetUpTones> tones;
  compare::Comparison comparison;
  bool usable = true;        ///< false: too few recordings could be used, see measured.complaints; no comparison
};

/// Reads and compares a folder, a table of recordings or a logbook; tones are pooled over each set-up. Names of set-ups and
/// number are checked before anything is measured. RequestFailure, FileFailure, LogbookFailure.
Compared compare_source(const CompareRequest& request);

}  // namespace ringfall::terminal
