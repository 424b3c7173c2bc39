// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <vector>

#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
#include "work/sessions.h"

namespace ringfall::terminal {
int start(const StartRequest& request) {
  logbook::Conditions conditions;
  apply(request.session, conditions);
  conditions.bow = request.bow;
  logbook::Bow bow;
  apply(request.fittings, bow.fittings);
  logbook::Logbook::start(request.logbook, conditions, bow);
  print_out("{} is ready; keep recordings in it with: ringfall add {} RECORDING --setup NAME\n", request.logbook,
             request.logbook);
  return kDone;
}

int session(const SessionRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.changed) {
    auto conditions = book.conditions(*request.changed);
    apply(request.change, conditions);
    book.change_session(conditions);
    print_out("session {} is changed; `ringfall remeasure {}` takes it into the numbers\n", *request.changed, request.logbook);
    return kDone;
  }
  const auto next = work::next_session(book.conditions(), request.bow, request.change);
  print_out("session {} with '{}' is started; what is added now belongs to it\n", book.start_session(next.conditions), next.conditions.bow);
  if (!next.taken_over.empty()) print_out("as in the session before: {}\n", fmt::join(next.taken_over, ", "));
  if (next.calibration_lost) {
    print_out("another chain: the calibration of the session before does not hold for it; levels are re full scale until it is calibrated "
               "(--calibrate or --full-scale-spl)\n");
  }
  return kDone;
}

}  // namespace ringfall::terminal
