// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {

int drop(const DropRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.block) {
    book.drop_block(request.number, request.reason);
  } else {
    book.drop_shot(request.number, request.reason);
  }
  fmt::print("{} {} {}\n", request.block ? "block" : "shot", request.number, request.reason.empty() ? "counts again" : "is left out");
  return kDone;
}

}  // namespace ringfall::terminal
