// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "compare/session.h"

namespace ringfall::compare {

/// Reads numbers measured elsewhere (accelerometers, a spreadsheet) as a session to compare, one row a shot.
/// Columns: setup; block (whole number; without it a new block begins where the set-up changes); shot and session (whole numbers,
/// optional); drop (a reason leaves the row out); said loud, said hum, said ping, said feel (ratings 0 .. 10); words; note. Every other
/// column is a number to compare; a unit stands behind its name in brackets: "vibration [m/s2]". Blank cells, "-" and "n/a" are missing values; a column without any number is left out and named.
/// Rows are in shooting order within their block; blocks go by session and number. Where the unit is dB, 1 dB counts as noticeable.
/// FileFailure names file, line and column: no value column, a name twice, a cell that is no number, points and commas for decimals in one
/// table, two set-ups in one block.
/// Tests: compare.NumberTable.*
Session read_number_table(const std::string& path);

}  // namespace ringfall::compare
