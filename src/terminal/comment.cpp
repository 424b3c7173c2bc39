// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "report/entry_text.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {
namespace {

/// A comment that is there, and what it is on.
struct SaidBefore {
  std::string on;
  std::string text;
};

SaidBefore find_comment(const logbook::Logbook& book, std::int64_t number) {
  const auto in = [number](const std::vector<logbook::Comment>& comments) {
    return std::ranges::find(comments, number, &logbook::Comment::id);
  };
  for (const auto& block : book.blocks()) {
    const auto said = in(block.comments);
    if (said != block.comments.end()) return {fmt::format("block {}", block.number), report::said_text({*said})};
    for (const auto& shot : block.shots) {
      const auto of_shot = in(shot.comments);
      if (of_shot != shot.comments.end()) return {fmt::format("shot {}", shot.id), report::said_text({*of_shot})};
    }
  }
  throw RequestFailure(fmt::format("there is no comment {}; `ringfall list {}` shows their numbers", number, book.path()));
}

}  // namespace

int comment(const CommentRequest& request) {
  logbook::Logbook book(request.logbook);
  if (request.remove || request.edit) {
    const SaidBefore before = find_comment(book, request.number);
    if (request.remove) {
      book.remove_comment(request.number);
    } else {
      book.change_comment(request.number, request.comment);
    }
    print_out("comment {} on {} is {}; it was: {}\n", request.number, before.on, request.remove ? "taken away" : "changed", before.text);
  } else if (request.block) {
    print_out("comment {} is kept with block {}\n", book.add_block_comment(request.number, request.comment), request.number);
  } else {
    print_out("comment {} is kept with shot {}\n", book.add_comment(request.number, request.comment), request.number);
  }
  return kDone;
}

}  // namespace ringfall::terminal
