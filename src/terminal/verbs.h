// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "terminal/requests.h"

namespace ringfall::terminal {

/// Each verb does what was asked, prints results on standard output and remarks on standard error, and returns the
/// exit status (exit_status.h). Failures leave as exceptions of base/failure.h; run() turns them into a sentence.
int measure(const MeasureRequest& request);
int demo(const DemoRequest& request);
int compare(const CompareRequest& request);
int report(const ReportRequest& request);
int plan(const PlanRequest& request);
int season(const SeasonRequest& request);
int hunting(const HuntingRequest& request);

/// The whole program: reads the command line, runs the verb, says what went wrong.
int run(int argc, char** argv);

}  // namespace ringfall::terminal
