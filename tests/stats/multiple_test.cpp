// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/multiple.h"

#include <gtest/gtest.h>

#include "base/failure.h"

namespace ringfall::stats {
namespace {

void expect_list(const std::vector<double>& found, const std::vector<double>& expected,
                 double relative) {
  ASSERT_EQ(found.size(), expected.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    EXPECT_NEAR(found[i], expected[i], relative * expected[i]) << i;
}

TEST(Multiple, FourPs) {
  // R, p.adjust.
  const std::vector<double> p{0.01, 0.04, 0.03, 0.005};
  expect_list(holm_adjusted(p), {0.03, 0.06, 0.06, 0.02}, 1e-14);
}

TEST(Multiple, TenPs) {
  // R multtest, as quoted in open test data.
  const std::vector<double> p{0.8385,          0.6422,         0.6808,           0.9678,
                              0.7163,          0.177096952723, 5.23656777208e-5, 0.0202732688798,
                              2.8140506198e-4, 0.0149877310796};
  expect_list(holm_adjusted(p),
              {1, 1, 1, 1, 1, 1, 5.23656777e-4, 0.141912882, 2.53264556e-3, 0.119901849}, 1e-8);
}

// Holm 1979 with weights 1/4 and 3/4, by hand: 0.03 / 0.75 = 0.04 comes first, times all of 1; then 0.02 / 0.25 times the 0.25 left is 0.02, which
// is under what came before.
TEST(Multiple, WhoWeighsMoreComesFirst) {
  const std::vector<double> p{0.02, 0.03};
  expect_list(holm_adjusted(p, std::vector<double>{0.25, 0.75}), {0.04, 0.04}, 1e-14);
  expect_list(holm_adjusted(p, std::vector<double>{0.75, 0.25}), {2.0 / 75.0, 0.03}, 1e-14);
  EXPECT_THROW(holm_adjusted(p, std::vector<double>{1.0}), InternalError);
}

TEST(Multiple, EdgesAndBrokenPromises) {
  EXPECT_TRUE(holm_adjusted({}).empty());
  expect_list(holm_adjusted(std::vector<double>{0.7}), {0.7}, 0.0);
  EXPECT_THROW(holm_adjusted(std::vector<double>{1.1}), InternalError);
}

}  // namespace
}  // namespace ringfall::stats
