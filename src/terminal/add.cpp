// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/failure.h"
#include "base/nearest.h"
#include "base/text.h"
#include "intake/logbook_intake.h"
#include "report/json_text.h"
#include "terminal/exit_status.h"
#include "terminal/hear.h"
#include "terminal/ink.h"
#include "terminal/logbook_verbs.h"
#include "terminal/measure_text.h"

namespace ringfall::terminal {

using report::Json;
using report::json_text;
using report::json_tool;

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
  if (!request.json) fmt::print("New set-up '{}'{}\n\n", request.place.setup, first ? ", the baseline" : "");
}

/// Why nothing is kept of a recording without a shot: as far as it is known.
std::string no_shot_sentence(const intake::Recording& recording) {
  const auto finding = std::ranges::find(recording.findings, std::string("no_shot"), &Finding::code);
  return fmt::format("{}: no shot was found, nothing is kept of it. {}", recording.file,
                     finding == recording.findings.end() ? "" : finding->sentence);
}

void print_kept(const AddRequest& request, const intake::Recording& recording, const intake::AddedBlock& added, bool blind) {
  // Blind: a comment comes before the numbers.
  const std::string text = blind ? fmt::format("{}: {}\n", recording.file, counted(recording.shots.size(), "shot"))
                                 : measure_text(recording, Ink::for_standard_output());
  std::fwrite(text.data(), 1, text.size(), stdout);
  fmt::print("\n  Kept as block {} of '{}', shots {} to {} of the logbook.\n", added.number, request.place.setup, added.shots.front(),
             added.shots.back());
  if (blind) fmt::print("  Their numbers stay hidden until you comment on them: ringfall comment\n");
}

Json json_of(const AddRequest& request, const intake::Recording& recording, const intake::AddedBlock& added) {
  Json shots = Json::array();
  for (std::size_t k = 0; k < added.shots.size(); ++k) {
    shots.push_back({{"shot", added.shots[k]}, {"number", recording.shots[k].number}, {"onset_s", recording.shots[k].onset_s}});
  }
  return {{"block", added.number}, {"setup", request.place.setup}, {"file", recording.file}, {"shots", shots}};
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
  options.settings.find.temperature_c = logbook::reckoned_temperature_c(conditions);
  Heard heard = hear(request.recordings, options, 0);
  // Before anything is kept or made: all of them or none.
  for (const auto& recording : heard.recordings) intake::refuse_kept_sound(book, recording, options.settings.find);
  int status = heard.complaints.empty() ? kDone : kUnusable;
  Json blocks = Json::array();
  for (const auto& recording : heard.recordings) {
    if (recording.shots.empty()) {
      heard.complaints.push_back(no_shot_sentence(recording));
      if (status == kDone) status = kNotMeasured;
      continue;
    }
    if (to_make) make_setup(book, request);
    to_make = false;
    const auto added = intake::add_recording(book, recording, options.settings.find, request.place);
    if (request.json) {
      blocks.push_back(json_of(request, recording, added));
    } else {
      print_kept(request, recording, added, conditions.blind);
    }
  }
  if (request.json) {
    const std::string text = json_text({{"tool", json_tool()}, {"blocks", blocks}, {"complaints", heard.complaints}});
    std::fwrite(text.data(), 1, text.size(), stdout);
  }
  for (const auto& complaint : heard.complaints) fmt::print(stderr, "ringfall: {}\n", complaint);
  return status;
}

}  // namespace ringfall::terminal
