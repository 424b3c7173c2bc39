// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "compare/comparison.h"
#include "terminal/compare_json.h"
#include "terminal/compare_text.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/session_measure.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int compare(const CompareRequest& request) {
  const auto measured = measure_session(request.source, request.hear);
  for (const auto& complaint : measured.complaints) fmt::print(stderr, "ringfall: {}\n", complaint);
  if (!measured.complaints.empty() && measured.session.setups().size() < 2) return kUnusable;
  const auto comparison = compare::compare_setups(measured.session, request.baseline, request.main_number);
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
