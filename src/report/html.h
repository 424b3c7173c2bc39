// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "report/document.h"

namespace ringfall::report {

/// A piece as HTML that is also well-formed XML; every text comes out escaped. Tests: report.Page.*
std::string html_piece(const Piece& piece);

/// A section under a heading of the second rank.
std::string html_section(const Section& section);

}  // namespace ringfall::report
