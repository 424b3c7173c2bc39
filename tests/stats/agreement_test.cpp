// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/agreement.h"

#include <gtest/gtest.h>

#include "base/failure.h"

namespace ringfall::stats {
namespace {

using Table = std::vector<std::vector<std::size_t>>;

TEST(Agreement, PublishedTable) {
  // Values of SAS as quoted in open test data: plain 0.4842 (0.1380, 0.2137 .. 0.7547), linear 0.4701 (0.1457,
  // 0.1845 .. 0.7558); quadratic 0.45016 computed outside the project.
  const Table table{{0, 4, 1}, {0, 8, 0}, {0, 1, 5}};
  const Kappa plain = weighted_kappa(table, KappaWeights::none).value();
  EXPECT_NEAR(plain.kappa, 0.4842, 5e-5);
  EXPECT_NEAR(plain.standard_error, 0.1380, 5e-5);
  EXPECT_NEAR(plain.interval.low, 0.2137, 1e-4);
  EXPECT_NEAR(plain.interval.high, 0.7547, 1e-4);
  const Kappa linear = weighted_kappa(table, KappaWeights::linear).value();
  EXPECT_NEAR(linear.kappa, 0.4701, 5e-5);
  EXPECT_NEAR(linear.standard_error, 0.1457, 5e-5);
  EXPECT_NEAR(linear.interval.low, 0.1845, 1e-4);
  EXPECT_NEAR(linear.interval.high, 0.7558, 1e-4);
  EXPECT_NEAR(weighted_kappa(table, KappaWeights::quadratic).value().kappa, 0.45016, 5e-6);
}

TEST(Agreement, CompleteAndNone) {
  EXPECT_NEAR(weighted_kappa({{3, 0}, {0, 5}}, KappaWeights::linear).value().kappa, 1.0, 1e-15);
  // Rows and columns independent.
  EXPECT_NEAR(weighted_kappa({{2, 4}, {3, 6}}, KappaWeights::none).value().kappa, 0.0, 1e-15);
}

TEST(Agreement, NoAnswer) {
  EXPECT_FALSE(weighted_kappa({}, KappaWeights::none));
  EXPECT_FALSE(weighted_kappa({{0, 0}, {0, 0}}, KappaWeights::none));
  EXPECT_FALSE(weighted_kappa({{7, 0}, {0, 0}}, KappaWeights::linear));
  EXPECT_THROW(weighted_kappa({{7, 0}}, KappaWeights::linear), InternalError);
}

}  // namespace
}  // namespace ringfall::stats
