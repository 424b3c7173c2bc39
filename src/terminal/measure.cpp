// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "terminal/exit_status.h"
#include "terminal/hear.h"
#include "terminal/ink.h"
#include "terminal/measure_csv.h"
#include "terminal/measure_json.h"
#include "terminal/measure_text.h"
#include "terminal/output.h"
#include "terminal/pictures.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {
namespace {

void print_text(const std::vector<intake::Recording>& recordings) {
  const Ink ink = Ink::for_standard_output();
  bool first = true;
  for (const auto& recording : recordings) {
    if (!first) put("\n");
    first = false;
    put(measure_text(recording, ink));
  }
}

/// Was something asked for that could not be had: no shot, too few of those expected, or a number voided?
bool incomplete(const intake::Recording& recording, const shot::FindSettings& find) {
  const auto found = static_cast<int>(recording.shots.size());
  if (found == 0 || found < find.expect.value_or(0)) return true;
  const auto voids = [](const Finding& finding) { return finding.severity == Severity::void_; };
  return std::ranges::any_of(recording.findings, voids) ||
         std::ranges::any_of(recording.shots, [&](const shot::Shot& shot) {
           return std::ranges::any_of(shot.findings, voids);
         });
}

}  // namespace

int measure(const MeasureRequest& request) {
  const auto options = recording_options(request.hear);
  const Heard heard = hear(request.recordings, options, request.hear.jobs);
  switch (request.form) {
    case Form::text: print_text(heard.recordings); break;
    case Form::json: put(measure_json(heard.recordings, options.settings)); break;
    case Form::csv: put_data(measure_csv(heard.recordings)); break;
  }
  for (const auto& complaint : heard.complaints) print_error("ringfall: {}\n", complaint);
  if (request.picture_folder) {
    const std::size_t written = write_pictures(heard.recordings, options.settings, *request.picture_folder);
    print_error("{} pictures are in {}\n", written, *request.picture_folder);
  }
  if (!heard.complaints.empty()) return kUnusable;
  const bool gaps = std::ranges::any_of(heard.recordings, [&](const intake::Recording& recording) {
    return incomplete(recording, options.settings.find);
  });
  return gaps ? kNotMeasured : kDone;
}

}  // namespace ringfall::terminal
