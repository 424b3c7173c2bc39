// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/failure.h"
#include "base/text.h"
#include "base/version.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {
namespace {

void measure_again(logbook::Logbook& book, std::int64_t shot_id) {
  for (const auto& block : book.blocks()) {
    for (const auto& kept : block.shots) {
      if (kept.id == shot_id) book.set_numbers(shot_id, intake::remeasured(book, block, kept), kVersion);
    }
  }
}

/// Is the last that was said against the finder of this shot that it was missed?
bool was_missed(const logbook::Logbook& book, std::int64_t shot_id) {
  bool missed = false;
  for (const auto& correction : book.corrections()) {
    if (correction.shot == shot_id) missed = correction.kind == logbook::Correction::Kind::missed_shot;
  }
  return missed;
}

}  // namespace

int correct(const CorrectRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.not_a_shot) {
    book.say_not_a_shot(request.number);
    fmt::print("shot {} is none and does not count\n", request.number);
  } else if (request.edge_s) {
    book.move_edge(request.number, *request.edge_s);
    measure_again(book, request.number);
    fmt::print("the edge of shot {} is at {} now, and it is measured again\n", request.number, clock_text(*request.edge_s));
  } else if (request.missed_s) {
    const auto shot = intake::add_missed_shot(book, request.number, *request.missed_s, request.recording);
    fmt::print("the missed shot is kept as shot {}\n", shot);
  } else {
    if (was_missed(book, request.number)) {
      book.remove_missed_shot(request.number);
      fmt::print("shot {}, said to be missed, is taken out again\n", request.number);
      return kDone;
    }
    book.undo_correction(request.number);
    measure_again(book, request.number);
    fmt::print("shot {} is as it was found\n", request.number);
  }
  return kDone;
}

}  // namespace ringfall::terminal
