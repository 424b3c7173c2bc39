// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cmath>
#include <set>

#include "compare/confounders.h"
#include "compare/shooting_order.h"

namespace ringfall::compare {
namespace {

constexpr std::size_t kFewShots = 5;

struct Shooting {
  std::size_t shots = 0;
  std::size_t blocks = 0;
  std::set<int> sessions;
};

Shooting shooting_of(const Session& session, const std::string& setup) {
  Shooting shooting;
  for (const SessionBlock* block : session.kept()) {
    if (block->setup != setup) continue;
    ++shooting.blocks;
    shooting.shots += block->shots.size();
    shooting.sessions.insert(block->session);
  }
  return shooting;
}

void judge_order(const Session& session, const std::string& baseline, const std::string& setup,
                 std::vector<Finding>& findings) {
  const auto order = shooting_order(session, baseline, setup);
  if (order.judgement == OrderJudgement::balanced) return;
  const bool all = order.judgement == OrderJudgement::confounded;
  findings.push_back(
      {all ? "order_confounded" : "order_unbalanced", all ? Severity::caution : Severity::note, {},
       fmt::format("'{}' was shot {} than '{}' on average (order {}): {:.0f} % of a steady drift over the session {} the "
                   "difference. {}",
                   setup, order.share > 0.0 ? "later" : "earlier", baseline, order.blocks, 100.0 * std::abs(order.share),
                   all ? "can't be told from" : "is in", "Shoot in the order A B B A.")});
}

}  // namespace

std::vector<Finding> order_confounders(const Session& session, const std::string& baseline) {
  std::vector<Finding> findings;
  const Shooting base = shooting_of(session, baseline);
  for (const auto& setup : session.setups()) {
    const Shooting own = shooting_of(session, setup);
    if (own.shots < kFewShots) {
      findings.push_back({"few_shots", Severity::caution, {},
                          fmt::format("'{}' has {} shots only: ten or more are wanted to see 1 dB.", setup, own.shots)});
    }
    if (own.blocks < 2) {
      findings.push_back({"one_block", Severity::caution, {},
                          fmt::format("'{}' was shot in one block: what changed with time (strings, arms, weather) can't be "
                                      "told from the set-up, and how far a block lies off by luck is not seen. Record both once more, in the "
                                      "order B A.",
                                      setup)});
    } else if (setup != baseline) {
      judge_order(session, baseline, setup, findings);
    }
    if (setup == baseline) continue;
    std::size_t together = 0;
    for (const int evening : own.sessions) together += base.sessions.contains(evening) ? 1 : 0;
    if (together == 0) {
      findings.push_back({"never_together", Severity::caution, {},
                          fmt::format("'{}' and '{}' were never shot in one session: between sessions too much else differs, so "
                                      "they are not compared.",
                                      setup, baseline)});
    } else if (together < own.sessions.size() || together < base.sessions.size()) {
      findings.push_back({"session_left_out", Severity::note, {},
                          fmt::format("Only the sessions with both '{}' and '{}' count for their difference.", setup, baseline)});
    }
  }
  return findings;
}

}  // namespace ringfall::compare
