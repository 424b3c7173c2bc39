// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {

int block(const BlockRequest& request) {
  logbook::Logbook book(request.logbook);
  const auto blocks = book.blocks();
  const auto kept = std::ranges::find(blocks, request.number, &logbook::KeptBlock::number);
  if (kept == blocks.end()) {
    throw RequestFailure(fmt::format("there is no block {}; `ringfall list {}` shows those there are", request.number, request.logbook));
  }
  const std::string setup = request.setup.value_or(kept->setup);
  book.change_block(request.number, setup, request.note.value_or(kept->note));
  if (setup == kept->setup) {
    print_out("block {} stays with '{}'", request.number, setup);
  } else {
    print_out("block {} belongs to '{}' now; it was with '{}'", request.number, setup, kept->setup);
  }
  if (request.note && *request.note != kept->note) {
    print_out("; its remark {}", kept->note.empty() ? std::string("is new") : fmt::format("was \"{}\"", kept->note));
  }
  print_out("\n");
  return kDone;
}

}  // namespace ringfall::terminal
