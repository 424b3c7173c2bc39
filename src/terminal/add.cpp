// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "intake/session_options.h"
#include "report/json_text.h"
#include "terminal/exit_status.h"
#include "terminal/hear.h"
#include "terminal/ink.h"
#include "terminal/logbook_verbs.h"
#include "terminal/measure_text.h"
#include "terminal/output.h"
#include "work/sessions.h"

namespace ringfall::terminal {

using report::Json;
using report::json_text;
using report::json_tool;

namespace {

void print_kept(const AddRequest& request, const intake::Recording& recording, const intake::AddedBlock& added, bool blind) {
  // Blind: a comment comes before the numbers.
  const std::string text = blind ? fmt::format("{}: {}\n", recording.file, counted(recording.shots.size(), "shot"))
                                 : measure_text(recording, Ink::for_standard_output());
  put(text);
  print_out("\n  Kept as block {} of '{}', shots {} to {} of the logbook.\n", added.number, request.addition.place.setup, added.shots.front(),
             added.shots.back());
  if (blind) print_out("  Their numbers stay hidden until you comment on them: ringfall comment\n");
}

Json json_of(const AddRequest& request, const intake::Recording& recording, const intake::AddedBlock& added) {
  Json shots = Json::array();
  for (std::size_t k = 0; k < added.shots.size(); ++k) {
    shots.push_back({{"shot", added.shots[k]}, {"number", recording.shots[k].number}, {"onset_s", recording.shots[k].onset_s}});
  }
  return {{"block", added.number}, {"setup", request.addition.place.setup}, {"file", recording.file}, {"shots", shots}};
}

}  // namespace

int add(const AddRequest& request) {
  logbook::Logbook book(request.logbook);
  const std::int64_t session = request.addition.place.session;
  const auto conditions = session > 0 ? book.conditions(session) : book.conditions();
  work::need_session_bow(conditions, request.bow);
  work::check_addition(book, request.addition);  // before the long work
  auto options = intake::options_of(conditions);
  options.channel = request.channel;
  options.settings.find.expect = request.expect;
  Heard heard = hear(request.recordings, options, 0);
  int status = heard.complaints.empty() ? kDone : kUnusable;
  Json blocks = Json::array();
  work::keep_recordings(book, heard.recordings, options.settings.find, request.addition, [&](const work::Kept& kept) {
    const auto& recording = heard.recordings[kept.recording];
    if (!kept.block) {
      heard.complaints.push_back(work::no_shot_sentence(recording));
      if (status == kDone) status = kNotMeasured;
      return;
    }
    if (request.json) {
      blocks.push_back(json_of(request, recording, *kept.block));
      return;
    }
    if (kept.made_setup) print_out("New set-up '{}'{}\n\n", request.addition.place.setup, kept.made_baseline ? ", the baseline" : "");
    print_kept(request, recording, *kept.block, conditions.blind);
  });
  if (request.json) {
    const std::string text = json_text({{"tool", json_tool()}, {"blocks", blocks}, {"complaints", heard.complaints}});
    put(text);
  }
  for (const auto& complaint : heard.complaints) print_error("ringfall: {}\n", complaint);
  return status;
}

}  // namespace ringfall::terminal
