// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/document.h"
#include "report/session_report.h"

namespace ringfall::report {

/// The report of a session as a document, the same for page and paper. Tests: report.Page.*, report.Paper.*
Document session_document(const SessionReport& report);

}  // namespace ringfall::report
