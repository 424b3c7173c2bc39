// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/difference.h"

#include <gtest/gtest.h>

#include <vector>

#include "stats/hodges_lehmann.h"

namespace ringfall::stats {
namespace {

TEST(Difference, OneBlockEachMeansShots) {
  EXPECT_EQ(unit_of({{1.0, 2.0}, {}}, {{1.0}, {2.0}}), Unit::shot);
  EXPECT_EQ(unit_of({{1.0}}, {{1.0}, {2.0}, {3.0}}), Unit::shot);
  EXPECT_EQ(unit_of({{1.0}, {2.0}}, {{1.0}, {2.0}, {3.0}}), Unit::block);
  // Empty blocks have no mean.
  EXPECT_EQ(block_means({{70.0, 72.0}, {}, {72.5, 73.5}}), (std::vector<double>{71.0, 73.0}));
}

TEST(HodgesLehmann, NoAnswer) { EXPECT_FALSE(hodges_lehmann_shift({}, std::vector<double>{1.0, 2.0})); }

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
