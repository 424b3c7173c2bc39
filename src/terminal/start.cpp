// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "logbook/logbook.h"
#include "terminal/changes.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {

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
    conditions.temperature_c = 20.0;
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
  }
  return kDone;
}

}  // namespace ringfall::terminal
