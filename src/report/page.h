// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "report/document.h"

namespace ringfall::report {

/// A document as one self-contained HTML page: no script, no resource from outside, pictures and sounds inside; well-formed
/// as XML too; for screen, phone and A4. The same document always gives the same bytes. Tests: report.Page.*
std::string html_page(const Document& document);

}  // namespace ringfall::report
