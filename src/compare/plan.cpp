// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "base/check.h"
#include "stats/block_spread.h"
#include "stats/power.h"

namespace ringfall::compare {
namespace {

constexpr std::size_t kSmallestBlock = 3;
constexpr std::size_t kLargestBlock = 6;
constexpr std::size_t kMostBlocks = 60;
constexpr double kPlanAlpha = 0.05;
constexpr std::size_t kWarmUp = 6;
constexpr std::size_t kAfterChange = 2;

double block_deviation(const ShotScatter& scatter, std::size_t shots) {
  return std::sqrt(scatter.between_blocks * scatter.between_blocks +
                   scatter.within_block * scatter.within_block / static_cast<double>(shots));
}

/// Forth and back; every other round begins with another set-up, so that none is always first after the rest.
std::vector<PlannedBlock> forth_and_back(std::size_t setups, std::size_t blocks_per_setup, std::size_t shots) {
  std::vector<PlannedBlock> order;
  for (std::size_t round = 0; round < blocks_per_setup / 2; ++round) {
    std::vector<PlannedBlock> forth;
    for (std::size_t k = 0; k < setups; ++k) forth.push_back({(k + round) % setups, shots});
    order.insert(order.end(), forth.begin(), forth.end());
    order.insert(order.end(), forth.rbegin(), forth.rend());
  }
  return order;
}

std::size_t arrows_for(const std::vector<PlannedBlock>& order) {
  std::size_t arrows = kWarmUp;
  for (std::size_t k = 0; k < order.size(); ++k) {
    arrows += order[k].shots;
    if (k > 0 && order[k].setup != order[k - 1].setup) arrows += kAfterChange;
  }
  return arrows;
}

}  // namespace

std::optional<ShotScatter> scatter_seen(const Session& session, const Measure& measure) {
  std::map<std::pair<int, std::string>, std::vector<std::vector<double>>> groups;
  for (const SessionBlock* block : session.kept()) {
    std::vector<double> values;
    for (const SessionShot& entry : block->shots) {
      if (const auto value = measure.of(entry)) values.push_back(*value);
    }
    if (!values.empty()) groups[{block->session, block->setup}].push_back(std::move(values));
  }
  ShotScatter scatter;
  std::vector<stats::Blocks> cells;
  for (auto& [key, blocks] : groups) {
    for (const auto& block : blocks) scatter.shots += block.size();
    scatter.blocks += blocks.size();
    cells.push_back(std::move(blocks));
  }
  const auto spread = stats::spread_of_blocks(cells);
  if (spread.shot_df < 1.0 || spread.shot_square <= 0.0) return std::nullopt;
  scatter.within_block = std::sqrt(spread.shot_square);
  scatter.between_blocks = std::sqrt(spread.wander_square());
  scatter.between_df = spread.block_df;
  return scatter;
}

ShootingPlan plan_shooting(const PlanQuestion& question) {
  check(question.setups.size() >= 2, "two set-ups or more");
  check(question.wanted > 0.0 && question.scatter.within_block > 0.0, "a difference and a spread above 0");
  check(question.power > 0.0 && question.power < 1.0, "a power between 0 and 1");
  ShootingPlan best;
  for (std::size_t shots = kSmallestBlock; shots <= kLargestBlock; ++shots) {
    const double deviation = block_deviation(question.scatter, shots);
    const auto setups = static_cast<double>(question.setups.size());
    const double alpha = kPlanAlpha / (setups - 1.0);
    const auto df_of = [&](std::size_t blocks) { return setups * (static_cast<double>(blocks) - 1.0) + question.scatter.between_df; };
    const auto power_of = [&](std::size_t blocks) {
      return stats::two_group_power(question.wanted, deviation, blocks, alpha, df_of(blocks));
    };
    std::size_t blocks = 2;
    while (blocks < kMostBlocks && power_of(blocks) < question.power) blocks += 2;
    ShootingPlan plan;
    plan.order = forth_and_back(question.setups.size(), blocks, shots);
    plan.shots_per_block = shots;
    plan.blocks_per_setup = blocks;
    plan.shots_per_setup = blocks * shots;
    plan.arrows = arrows_for(plan.order);
    plan.power = power_of(blocks);
    plan.half_width = stats::expected_half_width(deviation, blocks, stats::kConfidence, df_of(blocks));
    plan.detectable = stats::detectable_difference(deviation, blocks, question.power, alpha, df_of(blocks));
    plan.reaches = plan.power >= question.power;
    plan.too_many = plan.arrows > kMostArrows || !plan.reaches;
    // Fewest arrows among those that find it; where none does, the one that comes nearest.
    const bool better = plan.reaches && best.reaches ? plan.arrows < best.arrows : plan.power > best.power;
    if (best.order.empty() || better) best = std::move(plan);
  }
  return best;
}

}  // namespace ringfall::compare
