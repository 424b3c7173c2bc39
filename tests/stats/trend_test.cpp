// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/trend.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/failure.h"

namespace ringfall::stats {
namespace {

TEST(Trend, Sen1968) {
  // Sen 1968: slope 4, intercept 4, ends 3.71 (26/7) and 4.38 (35/8), the 4th of the 21 slopes from either side.
  // Printed as a 93 % interval; counting orders, 4th from the end leaves out 2 * 76/5040, so it holds 97 % and is
  // ours for 95 %. 93 % (2 * 174/5040 left out) are held by the 5th, 15/4 and 46/11: docs/measures/statistics.md.
  const std::vector<double> x{1, 2, 3, 4, 10, 12, 18};
  const std::vector<double> y{9, 15, 19, 20, 45, 55, 78};
  const RobustTrend trend = theil_sen(x, y).value();
  EXPECT_DOUBLE_EQ(trend.slope, 4.0);
  EXPECT_DOUBLE_EQ(trend.intercept, 4.0);
  EXPECT_NEAR(trend.interval->low, 26.0 / 7.0, 1e-12);
  EXPECT_NEAR(trend.interval->high, 35.0 / 8.0, 1e-12);
  const RobustTrend narrower = theil_sen(x, y, 0.93).value();
  EXPECT_NEAR(narrower.interval->low, 15.0 / 4.0, 1e-12);
  EXPECT_NEAR(narrower.interval->high, 46.0 / 11.0, 1e-12);
  // Rising throughout: 2 of 7! orders.
  EXPECT_NEAR(mann_kendall(x, y).value().p, 2.0 / 5040.0, 1e-15);
}

TEST(Trend, OneWildValueDoesNotMoveIt) {
  const std::vector<double> x{0, 1, 2, 3, 4, 5, 6, 7};
  std::vector<double> y{70.0, 70.5, 71.0, 71.5, 72.0, 72.5, 73.0, 73.5};
  y[2] = 95.0;
  EXPECT_NEAR(theil_sen(x, y).value().slope, 0.5, 1e-12);
}

TEST(Trend, TiedX) {
  // Two visits a month; slopes of equal x are left out: 12 of 15 pairs stay, all 2.
  const std::vector<double> x{1, 1, 2, 2, 3, 3};
  const std::vector<double> y{2, 2, 4, 4, 6, 6};
  const RobustTrend trend = theil_sen(x, y).value();
  EXPECT_EQ(trend.slope, 2.0);
  EXPECT_EQ(trend.interval->low, 2.0);
  EXPECT_EQ(trend.interval->high, 2.0);
}

TEST(Trend, NoAnswer) {
  const std::vector<double> x{1, 2, 3, 4};
  const std::vector<double> y{1, 3, 2, 4};
  const std::vector<double> same{1, 1, 1, 1};
  EXPECT_FALSE(theil_sen(same, y));
  EXPECT_FALSE(theil_sen(std::vector<double>{}, std::vector<double>{}));
  // Four points: the most extreme order has chance 1/24 on either side.
  EXPECT_FALSE(theil_sen(x, y).value().interval);
  EXPECT_TRUE(theil_sen(x, y, 0.90).value().interval);
  EXPECT_FALSE(mann_kendall(std::vector<double>{1, 2}, std::vector<double>{1, 2}));
}

}  // namespace
}  // namespace ringfall::stats
