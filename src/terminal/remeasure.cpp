// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/version.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int remeasure(const RemeasureRequest& request) {
  logbook::Logbook book(request.logbook);
  int count = 0;
  for (const auto& block : book.blocks()) {
    for (const auto& kept : block.shots) {
      book.set_numbers(kept.id, intake::remeasured(book, block, kept), kVersion);
      ++count;
    }
  }
  fmt::print("{} shots measured again\n", count);
  return kDone;
}

}  // namespace ringfall::terminal
