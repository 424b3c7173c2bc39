// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/power.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/failure.h"
#include "stats/distributions.h"

namespace ringfall::stats {
namespace {

struct Needed {
  double alpha;
  double power;
  double effect;
  double cohen;
  std::size_t exact;
};

// Cohen 1988, Table 2.4.1 (as quoted in open tables), two-sided; he rounds to the nearest. exact: the next whole number above
// the root that SciPy's noncentral t gives: 393.406 63.766 25.525, 585.609 95.104 38.188, 526.333 85.031 33.826.
const Needed kNeeded[] = {
    {0.05, 0.8, 0.2, 393, 394}, {0.05, 0.8, 0.5, 64, 64}, {0.05, 0.8, 0.8, 26, 26},
    {0.01, 0.8, 0.2, 586, 586}, {0.01, 0.8, 0.5, 95, 96}, {0.01, 0.8, 0.8, 38, 39},
    {0.05, 0.9, 0.2, 526, 527}, {0.05, 0.9, 0.5, 85, 86}, {0.05, 0.9, 0.8, 34, 34},
};

TEST(Power, Cohen) {
  for (const Needed& needed : kNeeded) {
    const std::size_t found =
        shots_for_power(needed.effect, 1.0, needed.power, needed.alpha).value();
    EXPECT_EQ(found, needed.exact);
    EXPECT_NEAR(static_cast<double>(found), needed.cohen, 1.0);
  }
}

TEST(Power, TableOfTheTrade) {
  // Half width of the 95 % interval / difference found with 80 % power, dB, rounded (t table; noncentral t outside the project).
  const std::size_t n[] = {5, 6, 8, 10, 12, 20};
  const double sd[] = {0.5, 1.0, 1.5};
  const double width[3][6] = {{0.7, 0.6, 0.5, 0.5, 0.4, 0.3},
                              {1.5, 1.3, 1.1, 0.9, 0.8, 0.6},
                              {2.2, 1.9, 1.6, 1.4, 1.3, 1.0}};
  const double found[3][6] = {{1.0, 0.9, 0.8, 0.7, 0.6, 0.5},
                              {2.0, 1.8, 1.5, 1.3, 1.2, 0.9},
                              {3.0, 2.7, 2.3, 2.0, 1.8, 1.4}};
  for (int i = 0; i < 3; ++i) {
    for (int j = 0; j < 6; ++j) {
      EXPECT_NEAR(expected_half_width(sd[i], n[j]), width[i][j], 0.051) << sd[i] << ' ' << n[j];
      EXPECT_NEAR(detectable_difference(sd[i], n[j]), found[i][j], 0.051) << sd[i] << ' ' << n[j];
    }
  }
}

TEST(Settling, WithoutANoticeableStepItIsTheTTest) {
  // Noncentral t (as above), by another way.
  for (const std::size_t n : {2U, 3U, 5U, 12U, 100U}) {
    for (const double effect : {0.0, 0.5, 1.0, 2.0}) {
      EXPECT_NEAR(settling_power(effect, 1.0, 0.0, n), two_group_power(effect, 1.0, n), 5e-5) << n << ' ' << effect;
    }
  }
  // Cohen's table (above) and its exact roots: 26 for 0.8, 64 for 0.5.
  EXPECT_EQ(units_to_settle(0.8, 1.0, 0.0), 26U);
  EXPECT_EQ(units_to_settle(-0.5, 1.0, 0.0), 64U);
  EXPECT_EQ(units_to_settle(0.8, 1.0, 0.0, 40), 40U);
}

// No true difference: chance 0.05 that 0 is excluded, and power of two one-sided tests at 2.5 %. Normal approximation of the latter for a
// margin of half a deviation (Julious 2004, from memory): 2 (1.960 + 1.2816)^2 / 0.25 = 84.06 for 80 %, so 75 % and the 5 % need a little less;
// with t in place of z a little more.
TEST(Settling, NoDifferenceIsSettledByALargeEnoughNumber) {
  const auto units = units_to_settle(0.0, 2.0, 1.0).value();
  EXPECT_GT(units, 74U);
  EXPECT_LT(units, 86U);
  EXPECT_GE(settling_power(0.0, 2.0, 1.0, units), 0.8);
  EXPECT_LT(settling_power(0.0, 2.0, 1.0, units - 1), 0.8);
}

TEST(Settling, SessionsCostADegreeOfFreedomEach) {
  EXPECT_LT(settling_power(1.0, 1.0, 0.0, 6, 4), settling_power(1.0, 1.0, 0.0, 6, 1));
}

TEST(Power, FitsTogether) {
  // The detectable difference is found with just the power asked for; scale does not matter.
  for (const std::size_t n : {2U, 5U, 40U}) {
    EXPECT_NEAR(two_group_power(detectable_difference(0.7, n), 0.7, n), 0.8, 1e-9);
  }
  EXPECT_NEAR(two_group_power(0.0, 1.0, 7), 0.05, 1e-12);
  EXPECT_NEAR(two_group_power(-1.0, 1.0, 7), two_group_power(10.0, 10.0, 7), 1e-12);
  EXPECT_EQ(two_group_power(1e6, 1.0, 2), 1.0);
}

TEST(Power, NoAnswer) {
  EXPECT_FALSE(shots_for_power(0.0, 1.0));
  EXPECT_FALSE(shots_for_power(1e-4, 1.0));
  EXPECT_FALSE(units_to_settle(0.0, 1.0, 0.0));
  EXPECT_FALSE(units_to_settle(1e-4, 1.0, 0.0));
  EXPECT_THROW(settling_power(1.0, 1.0, 0.0, 1), InternalError);
  EXPECT_THROW(two_group_power(1.0, 0.0, 5), InternalError);
  EXPECT_THROW(expected_half_width(1.0, 1), InternalError);
}

}  // namespace
}  // namespace ringfall::stats
