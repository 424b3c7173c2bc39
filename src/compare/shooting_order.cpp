// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/shooting_order.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace ringfall::compare {
namespace {

/// Of one session: how many shots, and where those of the two set-ups lie.
struct Places {
  double shots = 0.0;
  double n[2] = {0.0, 0.0};
  double sum[2] = {0.0, 0.0};
};

const char* letter(const SessionBlock& block, const std::string& baseline, const std::string& setup) {
  return block.setup == baseline ? "A" : block.setup == setup ? "B" : ".";
}

}  // namespace

ShootingOrder shooting_order(const Session& session, const std::string& baseline, const std::string& setup) {
  ShootingOrder order;
  std::map<int, Places> sessions;
  std::optional<int> last;
  for (const SessionBlock* block : session.kept()) {
    if (block->shots.empty()) continue;
    if (!order.blocks.empty()) order.blocks += last == block->session ? " " : " / ";
    order.blocks += letter(*block, baseline, setup);
    last = block->session;
    Places& places = sessions[block->session];
    for (std::size_t k = 0; k < block->shots.size(); ++k, places.shots += 1.0) {
      if (block->setup != baseline && block->setup != setup) continue;
      const std::size_t which = block->setup == setup ? 1 : 0;
      places.n[which] += 1.0;
      places.sum[which] += places.shots;
    }
  }
  double weights = 0.0;
  for (const auto& [number, places] : sessions) {
    if (places.n[0] == 0.0 || places.n[1] == 0.0) continue;
    const double weight = places.n[0] * places.n[1] / (places.n[0] + places.n[1]);
    const double apart = places.sum[1] / places.n[1] - places.sum[0] / places.n[0];
    weights += weight;
    order.shots_apart += weight * apart;
    order.share += weight * apart / (places.shots - 1.0);
  }
  if (weights > 0.0) {
    order.shots_apart /= weights;
    order.share /= weights;
  }
  const double size = std::abs(order.share);
  order.judgement = size <= kBalancedShare     ? OrderJudgement::balanced
                    : size < kConfoundedShare ? OrderJudgement::leaning
                                               : OrderJudgement::confounded;
  return order;
}

std::optional<DriftSeen> drift_of(const Session& session, const Measure& measure) {
  std::map<std::pair<int, std::string>, std::size_t> groups;
  std::map<int, double> places;
  std::vector<double> order;
  std::vector<double> values;
  std::vector<std::size_t> group;
  for (const SessionBlock* block : session.kept()) {
    const std::size_t own = groups.try_emplace({block->session, block->setup}, groups.size()).first->second;
    for (const SessionShot& entry : block->shots) {
      const double place = places[block->session]++;
      if (const auto value = measure.of(entry)) {
        order.push_back(place);
        values.push_back(*value);
        group.push_back(own);
      }
    }
  }
  const auto trend = stats::trend_within(order, group, values);
  if (!trend) return std::nullopt;
  double longest = 0.0;
  for (const auto& [number, shots] : places) longest = std::max(longest, shots);
  const double steps = std::max(0.0, longest - 1.0);
  DriftSeen seen{*trend, trend->slope * steps, std::nullopt};
  if (trend->interval) seen.over_session_interval = {trend->interval->low * steps, trend->interval->high * steps};
  return seen;
}

}  // namespace ringfall::compare
