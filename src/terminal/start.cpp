// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

#include "logbook/logbook.h"
#include "terminal/changes.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {
namespace {

/// What a new session has from the one before, as it was not said anew; empty: nothing.
std::string taken_over(const SessionChange& said, const logbook::Conditions& now, bool other_bow) {
  std::vector<std::string> parts;
  if (!other_bow) parts.push_back(fmt::format("bow '{}'", now.bow));
  if (!said.place && !now.place.empty()) parts.push_back(fmt::format("place '{}'", now.place));
  if (!said.distance_m && now.distance_m) parts.push_back(fmt::format("distance {:g} m", *now.distance_m));
  if (!said.microphone && !now.microphone.empty()) parts.push_back(fmt::format("microphone '{}'", now.microphone));
  if (!said.device && !now.device.empty()) parts.push_back(fmt::format("device '{}'", now.device));
  if (!said.chain && !now.chain.empty()) parts.push_back(fmt::format("chain '{}'", now.chain));
  if (!said.full_scale_db_spl && !said.calibration.file && now.full_scale_db_spl) {
    parts.push_back(fmt::format("full scale {:g} dB", *now.full_scale_db_spl));
  }
  if (!said.blind && now.blind) parts.emplace_back("blind");
  return fmt::format("{}", fmt::join(parts, ", "));
}

}  // namespace

int start(const StartRequest& request) {
  logbook::Conditions conditions;
  apply(request.session, conditions);
  conditions.bow = request.bow;
  logbook::Bow bow;
  apply(request.fittings, bow.fittings);
  logbook::Logbook::start(request.logbook, conditions, bow);
  fmt::print("{} is ready; keep recordings in it with: ringfall add {} RECORDING --setup NAME\n", request.logbook,
             request.logbook);
  return kDone;
}

int session(const SessionRequest& request) {
  logbook::Logbook book(request.logbook);
  // A new one is like the last, but its air, its tone and its remark are its own.
  logbook::Conditions conditions = request.changed ? book.conditions(*request.changed) : book.conditions();
  if (!request.changed) {
    if (!request.bow.empty()) conditions.bow = request.bow;
    conditions.started_at.clear();
    conditions.temperature_c.reset();
    conditions.humidity_percent.reset();
    conditions.check_tone_db.reset();
    conditions.note.clear();
  }
  apply(request.change, conditions);
  if (request.changed) {
    book.change_session(conditions);
    fmt::print("session {} is changed; `ringfall remeasure {}` takes it into the numbers\n", *request.changed, request.logbook);
  } else {
    fmt::print("session {} with '{}' is started; what is added now belongs to it\n", book.start_session(conditions), conditions.bow);
    const std::string kept = taken_over(request.change, conditions, !request.bow.empty());
    if (!kept.empty()) fmt::print("as in the session before: {}\n", kept);
  }
  return kDone;
}

}  // namespace ringfall::terminal
