// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/stratified.h"

#include <gtest/gtest.h>

#include "stats/random.h"
#include "stats/trend.h"
#include "stats/trend_within.h"

namespace ringfall::stats {
namespace {

// One evening with both, in one block each; the two lonely blocks of other evenings say nothing and are no second blocks.
TEST(Stratified, TheUnitGoesByTheSessionsThatCount) {
  const std::vector<SessionBlocks> sessions = {{{{1.0, 2.0}}, {{3.0, 5.0}}}, {{{7.0, 8.0}}, {}}, {{}, {{9.0, 9.5}}}};
  EXPECT_EQ(with_both(sessions).size(), 1U);
  EXPECT_EQ(unit_of(sessions), Unit::shot);
  EXPECT_EQ(units_within(sessions, Unit::shot).size(), 1U);
}

TEST(Stratified, ThreeBlocksAgainstOneAreShots) {
  EXPECT_EQ(unit_of(std::vector<SessionBlocks>{{{{1.0}, {2.0}, {3.0}}, {{4.0, 5.0}}}}), Unit::shot);
}

// Sen 1968: slope 4; one group is the plain way, and a second group of another level adds its own slopes only.
TEST(TrendWithin, OneGroupIsTheilSen) {
  const std::vector<double> x = {1, 2, 3, 4, 10, 12, 18};
  const std::vector<double> y = {9, 15, 19, 20, 45, 55, 78};
  const std::vector<std::size_t> one(7, 3);
  const auto trend = trend_within(x, one, y).value();
  EXPECT_DOUBLE_EQ(trend.slope, 4.0);
  EXPECT_EQ(trend.pairs, 21U);
  // S = 21, variance 7 * 6 * 19 / 18 = 44.33, z = 20 / 6.658 = 3.004, two-sided p 0.00267 (normal table).
  EXPECT_NEAR(trend.p, 0.00267, 0.00002);
  std::vector<double> long_x, long_y;
  Random random(7);
  for (int k = 0; k < 80; ++k) {
    long_x.push_back(k);
    long_y.push_back(0.1 * k + random.normal());
  }
  const auto within = trend_within(long_x, std::vector<std::size_t>(80, 0), long_y).value();
  const auto plain = theil_sen(long_x, long_y).value();
  EXPECT_DOUBLE_EQ(within.slope, plain.slope);
  EXPECT_DOUBLE_EQ(within.interval->low, plain.interval->low);
  EXPECT_DOUBLE_EQ(within.interval->high, plain.interval->high);
}

// By hand: 15 pairs of which 3 tie in y, S = 12; variance (6 * 5 * 17 - 3 * 2 * 1 * 9) / 18 = 25.33; z = 11 / 5.033; normal table.
TEST(TrendWithin, TiesInYNarrowTheVariance) {
  const auto trend = trend_within(std::vector<double>{1, 2, 3, 4, 5, 6}, std::vector<std::size_t>(6, 0), std::vector<double>{1, 1, 2, 2, 3, 3});
  EXPECT_NEAR(trend.value().p, 0.02885, 1e-5);
}

// Two groups on one rising line but one of them 100 higher: pairs across groups would say otherwise. Slopes by hand: all 1.
TEST(TrendWithin, GroupsKeepTheirOwnLevel) {
  const std::vector<double> x = {1, 2, 3, 4};
  const std::vector<std::size_t> group = {0, 0, 1, 1};
  const std::vector<double> y = {1, 2, -97, -96};
  const auto trend = trend_within(x, group, y).value();
  EXPECT_DOUBLE_EQ(trend.slope, 1.0);
  EXPECT_EQ(trend.pairs, 2U);
  EXPECT_FALSE(trend.interval);  // two slopes can't give 95 %
}

TEST(TrendWithin, NoAnswer) {
  EXPECT_FALSE(trend_within(std::vector{1.0, 2.0}, std::vector<std::size_t>{0, 1}, std::vector{1.0, 2.0}));
  EXPECT_FALSE(trend_within(std::vector{1.0, 1.0}, std::vector<std::size_t>{0, 0}, std::vector{1.0, 2.0}));
  const auto flat = trend_within(std::vector{1.0, 2.0, 3.0}, std::vector<std::size_t>{0, 0, 0}, std::vector{5.0, 5.0, 5.0});
  EXPECT_DOUBLE_EQ(flat.value().slope, 0.0);
  EXPECT_EQ(flat->p, 1.0);
}

}  // namespace
}  // namespace ringfall::stats
