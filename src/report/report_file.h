// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <functional>
#include <string>

#include "report/session_report.h"

namespace ringfall::report {

/// Does the name end in something a report can be: .html (page), .pdf (paper), .csv or .json (the comparison's numbers)?
bool names_a_report(const std::filesystem::path& path);

/// The report as what the name's ending asks for. `go_on` is asked between the steps of making a page or a paper and may stop it: then
/// nothing is returned. RequestFailure: no such ending. Tests: report.ReportFile.*
std::string report_file(const SessionReport& report, const std::filesystem::path& path, const std::function<bool()>& go_on = {});

}  // namespace ringfall::report
