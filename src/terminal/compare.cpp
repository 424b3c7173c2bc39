// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "compare/comparison.h"
#include "compare/logbook_session.h"
#include "logbook/logbook.h"
#include "terminal/compare_json.h"
#include "terminal/compare_text.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/session_measure.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

namespace {

struct Compared {
  compare::Session session;
  std::vector<std::string> complaints;
  std::optional<std::string> baseline;
};

/// A logbook has its numbers and its baseline already; recordings are measured now.
Compared session_of(const CompareRequest& request) {
  if (!logbook::is_sqlite_file(request.source)) {
    auto measured = measure_session(request.source, request.hear);
    return {std::move(measured.session), std::move(measured.complaints), request.baseline};
  }
  const logbook::Logbook book(request.source);
  Compared kept{compare::logbook_session(book), {}, request.baseline};
  const auto names = kept.session.setups();
  for (const auto& setup : book.setups()) {
    const bool counts = std::ranges::find(names, setup.name) != names.end();
    if (!kept.baseline && setup.baseline && counts) kept.baseline = setup.name;
  }
  return kept;
}

}  // namespace

int compare(const CompareRequest& request) {
  const auto measured = session_of(request);
  for (const auto& complaint : measured.complaints) fmt::print(stderr, "ringfall: {}\n", complaint);
  if (!measured.complaints.empty() && measured.session.setups().size() < 2) return kUnusable;
  const auto comparison = compare::compare_setups(measured.session, measured.baseline, request.main_number);
  std::string out;
  switch (request.form) {
    case Form::text: out = compare_text(comparison, Ink::for_standard_output()); break;
    case Form::json: out = compare_json(comparison); break;
    case Form::csv: out = compare_csv(comparison); break;
  }
  std::fwrite(out.data(), 1, out.size(), stdout);
  if (!measured.complaints.empty()) return kUnusable;
  for (const auto& against : comparison.against) {
    if (!against.numbers.front().difference) return kNotMeasured;
  }
  return kDone;
}

}  // namespace ringfall::terminal
