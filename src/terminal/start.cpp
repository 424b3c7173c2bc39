// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int start(const StartRequest& request) {
  logbook::Logbook::start(request.logbook, request.conditions);
  fmt::print("{} is ready; keep recordings in it with: ringfall add {} RECORDING --setup NAME\n", request.logbook,
             request.logbook);
  return kDone;
}

}  // namespace ringfall::terminal
