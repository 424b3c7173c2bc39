// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "base/failure.h"
#include "base/text.h"
#include "base/version.h"
#include "intake/logbook_intake.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {

int remeasure(const RemeasureRequest& request) {
  logbook::Logbook book(request.logbook);
  std::size_t count = 0;
  std::size_t failed = 0;
  for (const auto& block : book.blocks()) {
    for (const auto& kept : block.shots) {
      try {
        book.set_numbers(kept.id, intake::remeasured(book, block, kept), kVersion);
        ++count;
      } catch (const LogbookFailure& failure) {
        // The others may be sound.
        fmt::print(stderr, "ringfall: shot {} of block {}: {}\n", kept.id, block.number, failure.what());
        ++failed;
      }
    }
  }
  fmt::print("{} measured again\n", counted(count, "shot"));
  if (failed > 0) fmt::print("{} could not be and {} as before\n", counted(failed, "shot"), failed == 1 ? "stays" : "stay");
  return failed > 0 ? kUnusable : kDone;
}

}  // namespace ringfall::terminal
