// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/text.h"
#include "base/version.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

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
  fmt::print("{} measured again\n", counted(static_cast<std::size_t>(count), "shot"));
  return kDone;
}

}  // namespace ringfall::terminal
