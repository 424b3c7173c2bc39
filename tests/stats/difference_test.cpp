// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/difference.h"

#include <gtest/gtest.h>

#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/hodges_lehmann.h"
#include "stats/published.h"

namespace ringfall::stats {
namespace {

using published::sleep_first;
using published::sleep_second;

TEST(Difference, StudentSleep) {
  // Published for first minus second (Debian's R, t.test of the sleep data): t -1.8608, df 17.776, p 0.07939,
  // interval -3.36548 .. 0.20548. Ours is second minus first.
  const Difference welch = welch_difference(sleep_first, sleep_second).value();
  EXPECT_NEAR(welch.difference, 1.58, 1e-12);
  EXPECT_NEAR(welch.t, 1.8608, 5e-5);
  EXPECT_NEAR(welch.df, 17.776, 5e-4);
  EXPECT_NEAR(welch.p, 0.07939, 5e-6);
  EXPECT_NEAR(welch.interval.low, -0.20548, 5e-6);
  EXPECT_NEAR(welch.interval.high, 3.36548, 5e-6);
}

TEST(Difference, BlocksAreTheUnit) {
  // By hand: block means 71, 73 and 70, 69: difference -2.5, pooled variance (2 + 0.5) / 2 = 1.25, standard error
  // sqrt(1.25) = 1.118034, df 2, t(0.975, 2) = 4.302653.
  const Blocks first{{70.0, 72.0}, {72.5, 73.5}, {}};
  const Blocks second{{69.0, 71.0}, {69.0}};
  ASSERT_EQ(unit_of(first, second), Unit::block);
  const Difference d = blocked_difference(first, second, Unit::block).value();
  EXPECT_NEAR(d.difference, -2.5, 1e-12);
  EXPECT_NEAR(d.standard_error, 1.118034, 1e-6);
  EXPECT_EQ(d.df, 2.0);
  EXPECT_NEAR(d.interval.half_width(), 4.302653 * 1.118034, 1e-5);
  // As shots: means 72 and 69.667.
  const Difference shots = blocked_difference(first, second, Unit::shot).value();
  EXPECT_NEAR(shots.difference, 209.0 / 3.0 - 72.0, 1e-12);
}

TEST(Difference, OneBlockEachMeansShots) {
  EXPECT_EQ(unit_of({{1.0, 2.0}, {}}, {{1.0}, {2.0}}), Unit::shot);
  EXPECT_FALSE(blocked_difference({{1.0, 2.0}}, {{3.0, 4.0}}, Unit::block));
  EXPECT_EQ(unit_of({{1.0}}, {{1.0}, {2.0}, {3.0}}), Unit::shot);
}

TEST(Difference, NoAnswer) {
  const std::vector<double> one{1.0};
  const std::vector<double> two{1.0, 2.0};
  const std::vector<double> same{0.1, 0.1, 0.1};
  EXPECT_FALSE(welch_difference(one, two));
  EXPECT_FALSE(welch_difference(same, same));
  EXPECT_TRUE(welch_difference(same, two));
  EXPECT_TRUE(pooled_difference(one, two));
  EXPECT_FALSE(pooled_difference(one, one));
  EXPECT_FALSE(pooled_difference({}, two));
  EXPECT_FALSE(hodges_lehmann_shift({}, two));
}

TEST(Difference, BrokenPromises) {
  const std::vector<double> two{1.0, 2.0};
  const std::vector<double> bad{1.0, std::numeric_limits<double>::infinity()};
  EXPECT_THROW(welch_difference(two, bad), InternalError);
  EXPECT_THROW(welch_difference(two, two, 1.0), InternalError);
}

TEST(HodgesLehmann, ExactInterval) {
  // Hollander & Wolfe, Table 4.1 (permeability of human chorioamnion; data as in the help of wilcox.test in R, from memory:
  // SciPy gives the known U = 35 and one-sided p = 0.1272 for them). P(U <= 8) = 0.01998, P(U <= 9) = 0.0276, so the
  // ends are the 9th of the 50 sorted differences from either side; read off a sorted list made with NumPy.
  const std::vector<double> x{0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46};
  const std::vector<double> y{1.15, 0.88, 0.90, 0.74, 1.21};
  const Shift shift = hodges_lehmann_shift(y, x).value();
  EXPECT_NEAR(shift.shift, 0.305, 1e-12);
  EXPECT_NEAR(shift.interval->low, -0.15, 1e-12);
  EXPECT_NEAR(shift.interval->high, 0.76, 1e-12);
}

TEST(HodgesLehmann, ManyValuesByTheNormalApproximation) {
  // By hand: 60 against 60, 3600 pairs, deviation sqrt(3600 * 121 / 12) = 190.53: the 1426th of them from either side (1800 - 1.95996 *
  // 190.53 = 1426.6). Values 0 .. 59 against the same plus 100: 60 - |d| pairs differ by 100 + d, so 1378 lie under 93 and 1431 up to it.
  std::vector<double> first;
  std::vector<double> second;
  for (int k = 0; k < 60; ++k) {
    first.push_back(k);
    second.push_back(100.0 + k);
  }
  const Shift shift = hodges_lehmann_shift(first, second).value();
  EXPECT_EQ(shift.shift, 100.0);
  EXPECT_EQ(shift.interval->low, 93.0);
  EXPECT_EQ(shift.interval->high, 107.0);
}

TEST(HodgesLehmann, TooFewForAnInterval) {
  // 3 against 3: the most extreme order has chance 1/20, so 95 % can't be reached, 90 % can.
  const std::vector<double> a{1.0, 2.0, 3.0};
  const std::vector<double> b{11.0, 12.0, 14.0};
  EXPECT_FALSE(hodges_lehmann_shift(a, b).value().interval);
  const Shift shift = hodges_lehmann_shift(a, b, 0.90).value();
  EXPECT_EQ(shift.interval->low, 8.0);
  EXPECT_EQ(shift.interval->high, 13.0);
}

}  // namespace
}  // namespace ringfall::stats
