// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "plot/picture.h"
#include "report/document.h"

namespace ringfall::report {

/// A document on sheets of A4, for plot::pdf_bytes. Sounds can't be printed: a section of nothing else but them and words is
/// left out. No row of a table and no figure is cut by the end of a sheet; a table that goes on repeats its head.
/// Deterministic. Tests: report.Paper.*
std::vector<plot::Picture> paper_sheets(const Document& document);

}  // namespace ringfall::report
