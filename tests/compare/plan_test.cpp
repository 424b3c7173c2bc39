// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/plan.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "compare/made_up_session.h"
#include "compare/plan_advice.h"
#include "stats/random.h"

namespace ringfall::compare {
namespace {

Measure exposure() { return measure_of(*shot::find_number("exposure_db")); }

/// Mean place of each set-up's shots: a steady drift is in no difference when they are all the same.
std::vector<double> mean_places(const ShootingPlan& plan, std::size_t setups) {
  std::vector<double> sum(setups, 0.0);
  std::vector<double> n(setups, 0.0);
  double place = 0.0;
  for (const auto& block : plan.order) {
    for (std::size_t k = 0; k < block.shots; ++k) {
      sum[block.setup] += place++;
      n[block.setup] += 1.0;
    }
  }
  for (std::size_t k = 0; k < setups; ++k) sum[k] /= n[k];
  return sum;
}

TEST(Plan, ASteadyDriftCancelsForAnyNumberOfSetUps) {
  for (std::size_t setups = 2; setups <= 4; ++setups) {
    const auto plan = plan_shooting({std::vector<std::string>(setups, "x"), 1.0, {1.0, 0.3, 0, 0}, 0.8});
    const auto places = mean_places(plan, setups);
    for (const double place : places) EXPECT_NEAR(place, places[0], 1e-9) << setups;
    EXPECT_EQ(plan.order.size(), setups * plan.blocks_per_setup);
    EXPECT_EQ(plan.blocks_per_setup % 2, 0U);
  }
}

// Blocks of 6 shots of SD 1 dB: block means of SD 0.408 dB; 1 dB is an effect of 2.449 of them. Two-sided t test at 5 %: 4 + 4 blocks have
// power 0.83, 3 + 3 0.62 (noncentral t, R power.t.test(n = 4, delta = 2.449)); even numbers only, so 4.
TEST(Plan, FindsTheFewestArrows) {
  const auto plan = plan_shooting({{"bare", "rubber"}, 1.0, {1.0, 0.0, 0, 0}, 0.8});
  EXPECT_GE(plan.power, 0.8);
  EXPECT_LE(plan.shots_per_setup, 24U);
  EXPECT_GE(plan.shots_per_setup, 17U);  // 17 shots each would do without blocks (Cohen 1988, d = 1: n = 17)
  EXPECT_FALSE(plan.too_many);
  EXPECT_LE(plan.detectable, 1.0);
  // Warm-up 6, two after each of the changes of set-up.
  std::size_t changes = 0;
  for (std::size_t k = 1; k < plan.order.size(); ++k) changes += plan.order[k].setup != plan.order[k - 1].setup ? 1 : 0;
  EXPECT_EQ(plan.arrows, 6 + 2 * plan.shots_per_setup + 2 * changes);
}

TEST(Plan, BlocksThatWanderNeedMoreBlocks) {
  const auto steady = plan_shooting({{"a", "b"}, 1.0, {1.0, 0.0, 0, 0}, 0.8});
  const auto wandering = plan_shooting({{"a", "b"}, 1.0, {1.0, 0.7, 0, 0}, 0.8});
  EXPECT_GT(wandering.blocks_per_setup, steady.blocks_per_setup);
  EXPECT_TRUE(plan_shooting({{"a", "b"}, 0.1, {1.0, 0.7, 0, 0}, 0.8}).too_many);
}

// Nested analysis of variance by hand: set-up A, blocks {1, 3}, {5, 7}: within mean square (2 + 2) / 2 = 2, between
// 2 * ((2-4)^2 + (6-4)^2) / 1 = 16, n0 = 2: between variance (16 - 2) / 2 = 7.
TEST(Plan, ScatterIsTakenApartIntoShotsAndBlocks) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1.0, 3.0}), exposure_block("A", 2, {5.0, 7.0})};
  const auto scatter = scatter_seen(session, exposure()).value();
  EXPECT_NEAR(scatter.within_block, std::sqrt(2.0), 1e-12);
  EXPECT_NEAR(scatter.between_blocks, std::sqrt(7.0), 1e-12);
  EXPECT_EQ(scatter.shots, 4U);
}

TEST(Plan, NoSpreadNoScatter) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1.0}), exposure_block("A", 2, {5.0})};
  EXPECT_FALSE(scatter_seen(session, exposure()));
  EXPECT_FALSE(scatter_seen({}, exposure()));
}

TEST(Plan, AdviceForbidsShootingWithoutAnArrow) {
  const auto said = shooting_cautions();
  EXPECT_NE(said.front().find("without an arrow"), std::string::npos);
  EXPECT_FALSE(checklist().empty());
  EXPECT_NE(microphone_placing().front().find("behind the shooting line"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::compare
