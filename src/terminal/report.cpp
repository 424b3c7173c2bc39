// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/failure.h"
#include "compare/comparison.h"
#include "logbook/database.h"
#include "plot/write.h"
#include "report/page.h"
#include "report/session_report.h"
#include "terminal/exit_status.h"
#include "terminal/session_measure.h"
#include "terminal/session_sounds.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int report(const ReportRequest& request) {
  const auto& wanted = request.compare;
  if (logbook::is_sqlite_file(wanted.source)) {
    throw RequestFailure(wanted.source + ": a report is made from the recordings, not from a logbook: give their folder with a "
                                         "setups.csv. `ringfall compare` takes a logbook");
  }
  const auto measured = measure_session(wanted.source, wanted.hear);
  for (const auto& complaint : measured.complaints) fmt::print(stderr, "ringfall: {}\n", complaint);
  if (!measured.complaints.empty() && measured.session.setups().size() < 2) return kUnusable;
  report::ReportSource source;
  source.session = measured.session;
  source.comparison = compare::compare_setups(measured.session, wanted.baseline, wanted.main_number);
  auto heard = session_sounds(measured, *shot::find_number(source.comparison.main_number));
  source.sounds = std::move(heard.sounds);
  source.clips = std::move(heard.clips);
  source.clip_gain_db = heard.clip_gain_db;
  source.recordings = recording_facts(measured);
  source.complaints = measured.complaints;
  const auto finished = report::session_report(std::move(source));
  plot::write_whole_file(request.page, report::html_page(finished));
  fmt::print("{}\n", request.page);
  if (!measured.complaints.empty()) return kUnusable;
  for (const auto& against : finished.source.comparison.against) {
    if (!against.numbers.front().difference) return kNotMeasured;
  }
  return kDone;
}

}  // namespace ringfall::terminal
