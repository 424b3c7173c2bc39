// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/outlier.h"

#include <gtest/gtest.h>

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

}  // namespace
}  // namespace ringfall::stats
