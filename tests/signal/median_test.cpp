// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/median.h"

#include <gtest/gtest.h>

#include "base/failure.h"

namespace ringfall::signal {
namespace {

// By hand.
TEST(UpperMedian, IsTheMiddleValue) {
  EXPECT_EQ(upper_median({7.0}), 7.0);
  EXPECT_EQ(upper_median({3.0, -1.0, 2.0}), 2.0);
  EXPECT_EQ(upper_median({4.0, 1.0, 3.0, 2.0}), 3.0);
  std::vector<double> values{5.0, 5.0, 9.0, -2.0, 1e9};
  EXPECT_EQ(upper_median_in_place(values), 5.0);
}

TEST(UpperMedian, OfNothingIsABrokenPromise) { EXPECT_THROW(upper_median({}), InternalError); }

}  // namespace
}  // namespace ringfall::signal
