// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/block_spread.h"

#include <gtest/gtest.h>

#include <cmath>

#include "stats/published.h"

namespace ringfall::stats {
namespace {

/// Each value a block of its own.
Blocks one_shot_blocks(const std::vector<double>& values) {
  Blocks blocks;
  for (const double value : values) blocks.push_back({value});
  return blocks;
}

BlockSpread spread_of(const std::vector<SessionBlocks>& sessions) {
  std::vector<Blocks> cells;
  for (const auto& session : sessions) {
    cells.push_back(session.first);
    cells.push_back(session.second);
  }
  return spread_of_blocks(cells);
}

// Nested analysis of variance by hand: {1, 3}, {5, 7}: within 2 with 2 degrees of freedom, between 16 with 1, n0 = 2: wander (16 - 2) / 2 = 7.
TEST(BlockSpread, NestedAnalysisOfVarianceByHand) {
  const auto spread = spread_of_blocks(std::vector<Blocks>{{{1.0, 3.0}, {5.0, 7.0}, {}}, {}});
  EXPECT_DOUBLE_EQ(spread.shot_square, 2.0);
  EXPECT_DOUBLE_EQ(spread.shot_df, 2.0);
  EXPECT_DOUBLE_EQ(spread.block_square, 8.0);
  EXPECT_DOUBLE_EQ(spread.block_df, 1.0);
  EXPECT_DOUBLE_EQ(spread.n0, 2.0);
  EXPECT_DOUBLE_EQ(spread.wander_square(), 7.0);
  EXPECT_EQ(spread.cells, 1U);
  EXPECT_EQ(spread.blocks, 2U);
  // Blocks that agree: none below 0.
  EXPECT_EQ(spread_of_blocks(std::vector<Blocks>{{{1.0, 3.0}, {1.0, 3.0}}}).wander_square(), 0.0);
}

// Student's sleep data, each value a block (R's t.test, equal variances): t -1.860813 for first less second, 18 degrees of freedom, p 0.07918671.
TEST(BlockSpread, OneSessionOfEqualNumbersIsStudents) {
  const std::vector<SessionBlocks> sessions = {{one_shot_blocks({published::sleep_first.begin(), published::sleep_first.end()}),
                                                one_shot_blocks({published::sleep_second.begin(), published::sleep_second.end()})}};
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_NEAR(found.difference.t, 1.860813, 1e-6);
  EXPECT_NEAR(found.difference.p, 0.07918671, 1e-8);
  EXPECT_EQ(found.difference.df, 18.0);
  EXPECT_FALSE(found.assumed);
  EXPECT_FALSE(found.own_spreads);
}

// 4 + 2 blocks of one shot. By hand: variances 5/3 (3 degrees of freedom) and 200 (1); the common one 51.25. Of A the common counts with A's own
// degrees of freedom, of B its own: 51.25 / 4 + 200 / 2, df = 112.8125^2 / (12.8125^2 / 3 + 100^2).
TEST(BlockSpread, UnequalNumbersHearTheLargerSpread) {
  const std::vector<SessionBlocks> sessions = {{one_shot_blocks({1.0, 2.0, 3.0, 4.0}), one_shot_blocks({0.0, 20.0})}};
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_TRUE(found.own_spreads);
  EXPECT_NEAR(found.difference.standard_error, std::sqrt(51.25 / 4.0 + 100.0), 1e-9);
  EXPECT_NEAR(found.difference.df, 112.8125 * 112.8125 / (12.8125 * 12.8125 / 3.0 + 10000.0), 1e-9);
}

// Four evenings of one block each: Student over 1, 2, 3, 4: mean 2.5, error sqrt(5/3 / 4), 3 degrees of freedom (by hand).
TEST(BlockSpread, FourEveningsStandForThemselves) {
  std::vector<SessionBlocks> sessions;
  for (int k = 1; k <= 4; ++k) sessions.push_back({{{10.0 * k}, {10.0 * k + 0.2}}, {{11.0 * k}, {11.0 * k + 0.2}}});
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_NEAR(found.difference.difference, 2.5, 1e-9);
  EXPECT_NEAR(found.difference.standard_error, std::sqrt(5.0 / 12.0), 1e-9);
  EXPECT_EQ(found.difference.df, 3.0);
  // Blocks differ by 0.14 dB, evenings by 1.3: they disagree.
  ASSERT_TRUE(found.evenings);
  EXPECT_TRUE(found.evenings->disagree);
  EXPECT_EQ(found.evenings->differences.size(), 4U);
}

// Four that agree within their blocks stand for themselves as well: 1, 1.1, 0.9, 1.05: variance 0.0072917, over 4, 3 degrees of freedom (by hand).
TEST(BlockSpread, FourEveningsThatAgreeStandForThemselves) {
  std::vector<SessionBlocks> sessions;
  for (const double more : {1.0, 1.1, 0.9, 1.05}) sessions.push_back({{{0.0}, {0.2}}, {{more}, {more + 0.2}}});
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_NEAR(found.difference.standard_error, std::sqrt(0.00729166667 / 4.0), 1e-9);
  EXPECT_EQ(found.difference.df, 3.0);
}

// Two evenings that agree within their blocks: their own variance with one degree of freedom beside twice the blocks' with two.
// By hand: block variance 0.02 in all cells; d = 1.0 and 1.1, weights 1: evenings 0.005 / 2, blocks 0.02 / 2: (0.0025 + 2 * 2 * 0.01) / 3.
TEST(BlockSpread, TwoEveningsCountTheBlocksTwice) {
  const std::vector<SessionBlocks> sessions = {{{{0.0}, {0.2}}, {{1.0}, {1.2}}}, {{{5.0}, {5.2}}, {{6.1}, {6.3}}}};
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_NEAR(found.difference.standard_error, std::sqrt((0.0025 + 0.04) / 3.0), 1e-9);
  EXPECT_EQ(found.difference.df, 3.0);
  EXPECT_FALSE(found.evenings.value().disagree);
}

TEST(BlockSpread, BlocksThatAgreeByLuckAreHeldByTheirShots) {
  // Blocks of {0, 2}: means alike to 0.01, shots have variance 2: the interval is that of the shots, t(0.975, 4) = 2.776445, error sqrt(2 / 4 + 2 / 4).
  const std::vector<SessionBlocks> sessions = {{{{0.0, 2.0}, {0.01, 2.01}}, {{5.0, 7.0}, {5.01, 7.01}}}};
  const auto found = difference_over_blocks(sessions, spread_of(sessions)).value();
  EXPECT_TRUE(found.at_floor);
  EXPECT_NEAR(found.difference.interval.half_width(), 2.776445, 1e-5);
}

TEST(BlockSpread, NothingToGoBy) {
  const std::vector<SessionBlocks> lonely = {{{{1.0}}, {{2.0}}}};
  EXPECT_FALSE(difference_over_blocks(lonely, spread_of(lonely))) << "one shot each has no spread";
  const std::vector<SessionBlocks> apart = {{{{1.0, 2.0}}, {}}, {{}, {{2.0, 3.0}}}};
  EXPECT_FALSE(difference_over_blocks(apart, spread_of(apart))) << "no session has both";
}

}  // namespace
}  // namespace ringfall::stats
