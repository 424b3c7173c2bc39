// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "report/compare_json.h"
#include "terminal/compare_text.h"
#include "terminal/compared.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/output.h"
#include "terminal/page_width.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int compare(const CompareRequest& request) {
  const auto compared = compare_source(request);
  const auto& complaints = compared.measured.complaints;
  for (const auto& complaint : complaints) print_error("ringfall: {}\n", complaint);
  if (!compared.usable) return kUnusable;
  std::string out;
  switch (request.form) {
    case Form::text: out = compare_text(compared.comparison, compared.measured.session, request.all, page_width(), Ink::for_standard_output()); break;
    case Form::json: out = report::compare_json(compared.comparison, compared.measured.session); break;
    case Form::csv: out = report::compare_csv(compared.comparison); break;
  }
  if (request.form == Form::text && !request.all) out += "\n" + Ink::for_standard_output().quiet("All numbers: the same with --all.") + "\n";
  request.form == Form::csv ? put_data(out) : put(out);
  if (!complaints.empty()) return kUnusable;
  for (const auto& against : compared.comparison.against) {
    if (!against.numbers.front().difference) return kNotMeasured;
  }
  return kDone;
}

}  // namespace ringfall::terminal
