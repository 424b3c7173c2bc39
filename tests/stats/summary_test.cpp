// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/summary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/nist.h"

namespace ringfall::stats {
namespace {

struct Certified {
  const char* set;
  std::size_t n;
  double mean;
  double deviation;
  double tolerance;  // relative
};

// NIST StRD, univariate: certified values in the heads of the files. NumAcc2 to 4 hold decimals that doubles can't: their
// last digits are the data's, not ours.
const Certified kCertified[] = {
    {"Lew", 200, -177.435, 277.332168044316, 5e-15},
    {"Lottery", 218, 518.958715596330, 291.699727470969, 5e-15},
    {"Mavro", 50, 2.001856, 0.000429123454003053, 2e-12},
    {"Michelso", 100, 299.8524, 0.0790105478190518, 1e-12},
    {"NumAcc1", 3, 10000002.0, 1.0, 1e-15},
    {"NumAcc2", 1001, 1.2, 0.1, 1e-14},
    {"NumAcc3", 1001, 1000000.2, 0.1, 2e-9},
    {"NumAcc4", 1001, 10000000.2, 0.1, 2e-8},
};

TEST(Summary, NistUnivariate) {
  for (const Certified& c : kCertified) {
    const std::vector<double> values = nist_column(c.set, 0);
    ASSERT_EQ(values.size(), c.n) << c.set;
    EXPECT_NEAR(mean(values).value(), c.mean, 1e-15 * std::abs(c.mean)) << c.set;
    EXPECT_NEAR(standard_deviation(values).value(), c.deviation, c.tolerance * c.deviation)
        << c.set;
  }
}

TEST(Summary, MedianAndQuantiles) {
  // By hand: sorted 1 2 4 8; position 1 + 3 p (Hyndman & Fan 1996, definition 7).
  const std::vector<double> values{8.0, 1.0, 4.0, 2.0};
  EXPECT_DOUBLE_EQ(median(values).value(), 3.0);
  EXPECT_DOUBLE_EQ(quantile(values, 0.25).value(), 1.75);
  EXPECT_DOUBLE_EQ(quantile(values, 1.0).value(), 8.0);
  // Distances from 3: 5 2 1 1.
  EXPECT_DOUBLE_EQ(median_absolute_deviation(values).value(), 1.5);
}

TEST(Summary, NoAnswer) {
  const std::vector<double> none;
  const std::vector<double> one{71.2};
  const std::vector<double> equal{0.1, 0.1, 0.1, 0.1, 0.1, 0.1, 0.1};
  EXPECT_FALSE(mean(none));
  EXPECT_FALSE(median(none));
  EXPECT_FALSE(quantile(none, 0.5));
  EXPECT_FALSE(median_absolute_deviation(none));
  EXPECT_FALSE(standard_deviation(one));
  EXPECT_EQ(standard_deviation(equal).value(), 0.0);
  EXPECT_EQ(mean(one).value(), 71.2);
}

TEST(Summary, NanIsABrokenPromise) {
  const std::vector<double> bad{1.0, std::numeric_limits<double>::quiet_NaN()};
  EXPECT_THROW(mean(bad), InternalError);
  EXPECT_THROW(standard_deviation(bad), InternalError);
  EXPECT_THROW(median(bad), InternalError);
}

}  // namespace
}  // namespace ringfall::stats
