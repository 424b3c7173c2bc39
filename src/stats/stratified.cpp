// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/stratified.h"

#include <algorithm>

namespace ringfall::stats {
namespace {

std::vector<double> units_of_blocks(const Blocks& blocks, Unit unit) {
  if (unit == Unit::block) return block_means(blocks);
  std::vector<double> shots;
  for (const auto& block : blocks) shots.insert(shots.end(), block.begin(), block.end());
  return shots;
}

bool has_shots(const Blocks& blocks) {
  return std::ranges::any_of(blocks, [](const auto& block) { return !block.empty(); });
}

}  // namespace

std::vector<SessionBlocks> with_both(std::span<const SessionBlocks> sessions) {
  std::vector<SessionBlocks> both;
  for (const SessionBlocks& session : sessions) {
    if (has_shots(session.first) && has_shots(session.second)) both.push_back(session);
  }
  return both;
}

Unit unit_of(std::span<const SessionBlocks> sessions) {
  Blocks first;
  Blocks second;
  for (const SessionBlocks& session : with_both(sessions)) {
    first.insert(first.end(), session.first.begin(), session.first.end());
    second.insert(second.end(), session.second.begin(), session.second.end());
  }
  return unit_of(first, second);
}

std::vector<Stratum> units_within(std::span<const SessionBlocks> sessions, Unit unit) {
  std::vector<Stratum> strata;
  for (const SessionBlocks& session : with_both(sessions)) {
    strata.push_back({units_of_blocks(session.first, unit), units_of_blocks(session.second, unit)});
  }
  return strata;
}

}  // namespace ringfall::stats
