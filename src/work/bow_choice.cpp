// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/bow_choice.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "base/failure.h"
#include "base/nearest.h"

namespace ringfall::work {
namespace {

/// Those with blocks that count, in the order of their first.
std::vector<std::string> shot_bows(const logbook::Logbook& book) {
  std::vector<std::string> bows;
  for (const auto& block : book.blocks()) {
    if (block.dropped.empty() && std::ranges::find(bows, block.bow) == bows.end()) bows.push_back(block.bow);
  }
  return bows;
}

}  // namespace

void need_bow(const logbook::Logbook& book, const std::optional<std::string>& bow) {
  if (!bow) return;
  std::vector<std::string> names;
  for (const auto& known : book.bows()) names.push_back(known.name);
  if (std::ranges::find(names, *bow) != names.end()) return;
  throw RequestFailure(fmt::format("there is no bow '{}'{}", *bow, did_you_mean(*bow, names)));
}

std::optional<std::string> newest_bow(const logbook::Logbook& book) {
  std::optional<std::string> bow;
  for (const auto& block : book.blocks()) {
    if (block.dropped.empty()) bow = block.bow;
  }
  return bow;
}

Comparable comparable(const logbook::Logbook& book, const std::optional<std::string>& bow, const std::optional<std::string>& baseline) {
  need_bow(book, bow);
  if (!bow && !baseline) {
    const auto bows = shot_bows(book);
    if (bows.size() > 1) {
      throw RequestFailure(fmt::format("{} holds shots of {} bows ('{}'), and a set-up is held against its own bow's baseline: say which with --bow, or "
                                       "hold bows against each other with --baseline \"{}: SET-UP\"",
                                       book.path(), bows.size(), fmt::join(bows, "', '"), bows.front()));
    }
  }
  Comparable result;
  result.session = compare::logbook_session(book, bow);
  result.baseline = baseline ? std::optional(setup_in(result.session, *baseline)) : compare::logbook_baseline(book, result.session);
  return result;
}

std::string setup_in(const compare::Session& session, const std::string& typed) {
  const auto names = session.setups();
  if (std::ranges::find(names, typed) != names.end()) return typed;
  std::vector<std::string> ending;
  for (const auto& name : names) {
    if (name.ends_with(": " + typed)) ending.push_back(name);
  }
  if (ending.size() == 1) return ending.front();
  if (ending.size() > 1) {
    throw RequestFailure(fmt::format("'{}' is a set-up of {} bows: write '{}', or say which bow with --bow", typed, ending.size(),
                                     fmt::join(ending, "' or '")));
  }
  throw RequestFailure(fmt::format("there is no set-up '{}' with shots that count{}", typed, did_you_mean(typed, names)));
}

}  // namespace ringfall::work
