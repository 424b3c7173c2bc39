// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/failure.h"
#include "base/text.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"
#include "work/measuring.h"

namespace ringfall::terminal {

int correct(const CorrectRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.not_a_shot) {
    book.say_not_a_shot(request.number);
    print_out("shot {} is none and does not count\n", request.number);
  } else if (request.edge_s) {
    work::move_edge(book, request.number, *request.edge_s);
    print_out("the edge of shot {} is at {} now, and it is measured again\n", request.number, clock_text(*request.edge_s));
  } else if (request.missed_s) {
    const auto shot = intake::add_missed_shot(book, request.number, *request.missed_s, request.recording);
    print_out("the missed shot is kept as shot {}\n", shot);
  } else {
    const auto taken_back = work::take_back(book, request.number);
    if (taken_back == logbook::Correction::Kind::missed_shot) {
      print_out("shot {}, said to be missed, is taken out again\n", request.number);
    } else {
      print_out("shot {} is as it was found\n", request.number);
    }
  }
  return kDone;
}

}  // namespace ringfall::terminal
