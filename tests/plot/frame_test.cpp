// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/frame.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace ringfall::plot {
namespace {

TEST(FrameTest, EndsLieWhereTheyAreSaid) {
  const AxisMap linear{Scale::linear, -80.0, 0.0, 200.0, 40.0};
  EXPECT_DOUBLE_EQ(linear.to_page(-80.0), 200.0);
  EXPECT_DOUBLE_EQ(linear.to_page(0.0), 40.0);
  EXPECT_DOUBLE_EQ(linear.to_page(-20.0), 80.0);
  // Three decades over 300 pt: 100 Hz one decade above 10 Hz.
  const AxisMap logarithmic{Scale::logarithmic, 10.0, 10000.0, 0.0, 300.0};
  EXPECT_NEAR(logarithmic.to_page(100.0), 100.0, 1e-9);
  EXPECT_NEAR(logarithmic.to_data(200.0), 1000.0, 1e-9);
}

TEST(FrameTest, DataToPageToDataIsTheSame) {
  std::mt19937_64 random(1);
  std::uniform_real_distribution<double> part(0.0, 1.0), power(-6.0, 6.0);
  for (int i = 0; i < 2000; ++i) {
    AxisMap axis;
    axis.scale = i % 2 ? Scale::logarithmic : Scale::linear;
    axis.low = std::pow(10.0, power(random)) * (i % 4 == 0 ? -1.0 : 1.0);
    axis.high = axis.scale == Scale::linear ? axis.low + std::pow(10.0, power(random)) : axis.low * std::pow(10.0, 0.1 + 5.0 * part(random));
    axis.from_pt = 500.0 * part(random);
    axis.to_pt = axis.from_pt + (i % 3 == 0 ? -1.0 : 1.0) * (20.0 + 400.0 * part(random));
    const double t = part(random);
    const double data = axis.scale == Scale::linear ? axis.low + t * (axis.high - axis.low)
                                                    : axis.low * std::pow(axis.high / axis.low, t);
    EXPECT_NEAR(axis.to_data(axis.to_page(data)), data, 1e-9 * (axis.high - axis.low) + 1e-12 * std::abs(axis.low));
  }
}

TEST(FrameTest, WhatHasNoPlaceIsNaN) {
  const AxisMap linear{Scale::linear, 0.0, 1.0, 0.0, 100.0};
  const AxisMap logarithmic{Scale::logarithmic, 1.0, 10.0, 0.0, 100.0};
  EXPECT_TRUE(std::isnan(linear.to_page(std::numeric_limits<double>::infinity())));
  EXPECT_TRUE(std::isnan(linear.to_page(std::nan(""))));
  EXPECT_TRUE(std::isnan(logarithmic.to_page(0.0)));
  EXPECT_TRUE(std::isnan(logarithmic.to_page(-3.0)));
  EXPECT_DOUBLE_EQ(linear.to_page(-3.0), -300.0);
  EXPECT_LE(linear.to_page(1e300), 1.1e4);
}

}  // namespace
}  // namespace ringfall::plot
