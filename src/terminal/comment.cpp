// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/verbs.h"

namespace ringfall::terminal {

int comment(const CommentRequest& request) {
  logbook::Logbook(request.logbook).add_comment(request.shot, request.comment);
  fmt::print("kept with shot {}\n", request.shot);
  return kDone;
}

}  // namespace ringfall::terminal
