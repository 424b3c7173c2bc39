// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/values.h"

#include <map>

namespace ringfall::compare {
namespace {

std::vector<double> block_values(const SessionBlock& block, const ShotReader& read, Take take) {
  std::vector<double> values;
  const auto read_all = [&](const std::vector<SessionShot>& shots) {
    for (const SessionShot& entry : shots) {
      if (const auto value = read(block, entry)) values.push_back(*value);
    }
  };
  read_all(block.shots);
  if (take == Take::with_drops) read_all(block.dropped_shots);
  return values;
}

bool taken(const SessionBlock& block, Take take) { return block.dropped.empty() || take == Take::with_drops; }

}  // namespace

stats::Blocks values_of(const Session& session, const std::string& setup, const Measure& measure, Take take) {
  stats::Blocks blocks;
  for (const SessionBlock& block : session.blocks) {
    if (block.setup != setup || !taken(block, take)) continue;
    blocks.push_back(block_values(block, [&](const SessionBlock&, const SessionShot& entry) { return measure.of(entry); }, take));
  }
  return blocks;
}

std::vector<stats::SessionBlocks> session_values(const Session& session, const std::string& baseline, const std::string& setup,
                                                 const ShotReader& read, Take take) {
  std::map<int, stats::SessionBlocks> by_session;
  for (const SessionBlock& block : session.blocks) {
    if (!taken(block, take) || (block.setup != baseline && block.setup != setup)) continue;
    auto& own = by_session[block.session];
    (block.setup == baseline ? own.first : own.second).push_back(block_values(block, read, take));
  }
  std::vector<stats::SessionBlocks> sessions;
  for (auto& [number, own] : by_session) sessions.push_back(std::move(own));
  return sessions;
}

}  // namespace ringfall::compare
