// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/outlier.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/failure.h"

namespace ringfall::stats {
namespace {

TEST(Outlier, RobustZ) {
  // Iglewicz & Hoaglin 1993's rule by hand: median 72, distances 0 0.2 0.2 0.4 0.4 0.5 8: MAD 0.4; the wild value
  // 0.6745 * 8 / 0.4 = 13.49.
  const std::vector<double> values{72.0, 71.8, 72.2, 80.0, 71.6, 72.4, 71.5};
  const std::vector<Outlying> found = outlying_values(values);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].index, 3U);
  EXPECT_NEAR(found[0].robust_z, 13.49, 1e-9);
  // Sign kept; the limit is the caller's.
  EXPECT_EQ(outlying_values(values, 0.8).size(), 2U);
  EXPECT_LT(outlying_values(values, 0.8)[1].robust_z, 0.0);
}

TEST(Outlier, FiveValuesAreEnough) {
  // By hand: median 1.05, distances 0.05 0.05 0.15 0 7.95, MAD 0.05: 0.6745 * 7.95 / 0.05 = 107.2.
  const auto found = outlying_values(std::vector<double>{1.0, 1.1, 0.9, 1.05, 9.0});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].index, 4U);
}

TEST(Outlier, HalfOfThemEqual) {
  // MAD 0: mean absolute deviation instead (Iglewicz & Hoaglin 1993, from memory), 15 / 6 = 2.5; 15 / (1.253314 * 2.5) = 4.787.
  const auto found = outlying_values(std::vector<double>{80.0, 80.0, 95.0, 80.0, 80.0, 80.0});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].index, 2U);
  EXPECT_NEAR(found[0].robust_z, 4.787, 5e-4);
}

TEST(Outlier, NoneToShow) {
  EXPECT_TRUE(outlying_values({}).empty());
  EXPECT_TRUE(outlying_values(std::vector<double>{1.0, 1.1, 1.2, 99.0}).empty());
  EXPECT_TRUE(outlying_values(std::vector<double>{1.0, 1.0, 1.0, 1.0, 1.0}).empty());
  EXPECT_THROW(outlying_values(std::vector<double>{1.0, std::numeric_limits<double>::quiet_NaN()}),
               InternalError);
}

// NIST/SEMATECH e-Handbook 1.3.5.17.1, mass spectrometer data: G = 2.46876461121245 for 245.57, critical value of the two-sided test at 5 % for
// eight values 2.126645087195626: a G of just that has p 0.05.
TEST(Outlier, GrubbsMeetsTheHandbook) {
  const std::vector<double> values{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
  EXPECT_LT(grubbs_p(values, 7), 0.001);
  EXPECT_DOUBLE_EQ(grubbs_p(values, 4), 1.0);
  // Seven values about 0 and one pulled out until G is the critical value: bisection.
  std::vector<double> made{-1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 0.0};
  const auto g_of = [&] {
    double mean = 0.0, squares = 0.0;
    for (const double value : made) mean += value / 8.0;
    for (const double value : made) squares += (value - mean) * (value - mean) / 7.0;
    return (made[7] - mean) / std::sqrt(squares);
  };
  double low = 1.6, high = 50.0;
  for (int k = 0; k < 80; ++k) {
    made[7] = 0.5 * (low + high);
    (g_of() < 2.126645087195626 ? low : high) = made[7];
  }
  EXPECT_NEAR(grubbs_p(made, 7), 0.05, 1e-6);
}

}  // namespace
}  // namespace ringfall::stats
