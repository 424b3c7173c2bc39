// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>

#include "base/failure.h"
#include "base/nearest.h"
#include "base/text.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/hear.h"
#include "terminal/ink.h"
#include "terminal/measure_text.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {
namespace {

/// Is the set-up to be made? RequestFailure when its name looks like a slip of the pen.
bool is_new_setup(const logbook::Logbook& book, const AddRequest& request) {
  const std::string& name = request.place.setup;
  std::vector<std::string> names;
  for (const auto& known : book.setups(book.conditions().bow)) names.push_back(known.name);
  if (std::ranges::find(names, name) != names.end()) {
    if (!request.new_setup && request.changed.empty() && !request.added_mass_kg) return false;
    throw RequestFailure(fmt::format("the set-up '{}' is there already: --new, --changed and --added-mass are for a new one", name));
  }
  const std::string hint = did_you_mean(name, names);
  if (!request.new_setup && hint.find("did you mean") != std::string::npos) {
    throw RequestFailure(fmt::format("there is no set-up '{}' yet{} If it is a new one, say so with --new", name, hint));
  }
  return true;
}

void make_setup(logbook::Logbook& book, const AddRequest& request) {
  const bool first = book.setups(book.conditions().bow).empty();
  book.add_setup({request.place.setup, request.changed, false, request.added_mass_kg});
  fmt::print("New set-up '{}'{}\n\n", request.place.setup, first ? ", the baseline" : "");
}

}  // namespace

int add(const AddRequest& request) {
  logbook::Logbook book(request.logbook);
  const auto conditions = book.conditions();
  bool to_make = is_new_setup(book, request);  // before the long work
  intake::RecordingOptions options;
  options.channel = request.channel;
  options.scale.full_scale_db_spl = conditions.full_scale_db_spl;
  options.settings.find.expect = request.expect;
  options.settings.find.distance_m = conditions.distance_m;
  options.settings.find.temperature_c = conditions.temperature_c;
  const Heard heard = hear(request.recordings, options, 0);
  int status = kDone;
  for (const auto& recording : heard.recordings) {
    if (recording.shots.empty()) {
      fmt::print(stderr, "ringfall: {}: no shot was found, nothing is kept of it\n", recording.file);
      status = kNotMeasured;
      continue;
    }
    if (to_make) make_setup(book, request);
    to_make = false;
    const auto added = intake::add_recording(book, recording, options.settings.find, request.place);
    // Blind: a comment comes before the numbers.
    const std::string text = conditions.blind ? fmt::format("{}: {}\n", recording.file, counted(recording.shots.size(), "shot"))
                                              : measure_text(recording, Ink::for_standard_output());
    std::fwrite(text.data(), 1, text.size(), stdout);
    fmt::print("\n  Kept as block {} of '{}', shots {} to {} of the logbook.\n", added.number, request.place.setup,
               added.shots.front(), added.shots.back());
    if (conditions.blind) fmt::print("  Their numbers stay hidden until you comment on them: ringfall comment\n");
  }
  for (const auto& complaint : heard.complaints) fmt::print(stderr, "ringfall: {}\n", complaint);
  return heard.complaints.empty() ? status : kUnusable;
}

}  // namespace ringfall::terminal
