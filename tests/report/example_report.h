// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "report/session_report.h"

namespace ringfall::report {

/// Invented sessions without sound: set-ups "bare" and "plug" in blocks A B B A of `shots` shots each. The hum of "bare" lies
/// round 6 points, that of "plug" round 2; ratings follow the hum.
compare::Session example_session(int shots = 4);

ReportSource source_of(compare::Session session);

/// What Python's strict readers of XML and HTML say of a page; "fine" when nothing.
std::string verdict_of_readers(const std::string& page);

}  // namespace ringfall::report
