// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/logbook_verbs.h"
#include "terminal/output.h"

namespace ringfall::terminal {
namespace {

/// Why a thing is left out by now; empty: it counts.
struct Reasons {
  std::string own;       ///< of the shot or block that is spoken of
  std::string of_block;  ///< of the block that the shot is in
  std::int64_t block = 0;
};

Reasons reasons_of(const logbook::Logbook& book, const DropRequest& request) {
  for (const auto& block : book.blocks()) {
    if (request.block) {
      if (block.number == request.number) return {block.dropped, "", block.number};
      continue;
    }
    const auto shot = std::ranges::find(block.shots, request.number, &logbook::KeptShot::id);
    if (shot != block.shots.end()) return {shot->dropped, block.dropped, block.number};
  }
  throw RequestFailure(fmt::format("there is no {} {}; `ringfall list {}` shows those there are", request.block ? "block" : "shot",
                                   request.number, request.logbook));
}

}  // namespace

int drop(const DropRequest& request) {
  logbook::Logbook book(request.logbook);
  const Reasons before = reasons_of(book, request);
  const std::string what = fmt::format("{} {}", request.block ? "block" : "shot", request.number);
  if (request.reason.empty() && before.own.empty()) {
    if (before.of_block.empty()) throw RequestFailure(what + " was not left out: nothing is changed");
    throw RequestFailure(fmt::format("{} itself was not left out, its block {} is ({}): ringfall restore LOGBOOK {} --block", what,
                                     before.block, before.of_block, before.block));
  }
  if (request.block) {
    book.drop_block(request.number, request.reason);
  } else {
    book.drop_shot(request.number, request.reason);
  }
  if (request.reason.empty()) {
    print_out("{} counts again; it was left out for: {}\n", what, before.own);
    if (!before.of_block.empty()) print_out("but its block {} is still left out: {}\n", before.block, before.of_block);
  } else if (before.own.empty()) {
    print_out("{} is left out\n", what);
  } else {
    print_out("{} is left out; the reason before was: {}\n", what, before.own);
  }
  return kDone;
}

}  // namespace ringfall::terminal
