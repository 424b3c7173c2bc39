// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"

namespace ringfall::terminal {

int comment(const CommentRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.remove) {
    book.remove_comment(request.number);
    fmt::print("comment {} is taken away\n", request.number);
  } else if (request.edit) {
    book.change_comment(request.number, request.comment);
    fmt::print("comment {} is changed\n", request.number);
  } else if (request.block) {
    fmt::print("comment {} is kept with block {}\n", book.add_block_comment(request.number, request.comment), request.number);
  } else {
    fmt::print("comment {} is kept with shot {}\n", book.add_comment(request.number, request.comment), request.number);
  }
  return kDone;
}

}  // namespace ringfall::terminal
