// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "report/session_report.h"

namespace ringfall::report {

/// A set-up's row: blocks, notes, shots, what was left out of the main number and why.
SetUpSummary setup_summary(const compare::Session& session, const std::string& setup, const shot::Number& number);

/// Every doubt as a sentence, none twice: recordings that could not be used, what besides the set-up differed, findings about
/// recordings (with the files), and findings about shots that void or doubt a number (with their count).
std::vector<std::string> doubts_of(const ReportSource& source);

}  // namespace ringfall::report
