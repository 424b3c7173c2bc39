// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/ticks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "base/failure.h"
#include "plot/text_width.h"

namespace ringfall::plot {
namespace {

double extent(const std::string& label) { return text_width(label, 8.0); }

std::vector<std::string> labels(const std::vector<Tick>& row) {
  std::vector<std::string> result;
  for (const Tick& tick : row) result.push_back(tick.label);
  return result;
}
using Labels = std::vector<std::string>;

// Common practice of decibel and frequency axes, no source: what a person would write by hand.
TEST(TicksTest, ReadsAsWrittenByHand) {
  const std::string minus = "\xe2\x88\x92";
  EXPECT_EQ(labels(ticks({Scale::linear, -60.0, 0.0, 0.0, 200.0}, Numbers::plain, 30.0, extent)),
            (Labels{minus + "60", minus + "50", minus + "40", minus + "30", minus + "20", minus + "10", "0"}));
  EXPECT_EQ(labels(ticks({Scale::logarithmic, 20.0, 20000.0, 0.0, 400.0}, Numbers::kilo, 18.0, extent)),
            (Labels{"20", "50", "100", "200", "500", "1k", "2k", "5k", "10k", "20k"}));
  EXPECT_EQ(labels(ticks({Scale::linear, 0.0, 0.5, 0.0, 150.0}, Numbers::plain, 25.0, extent)),
            (Labels{"0.0", "0.1", "0.2", "0.3", "0.4", "0.5"}));
  EXPECT_EQ(labels(ticks({Scale::linear, 0.0, 3000.0, 0.0, 200.0}, Numbers::kilo, 60.0, extent)), (Labels{"0", "1k", "2k", "3k"}));
  // Less than a decade: steps as on a linear axis.
  EXPECT_EQ(labels(ticks({Scale::logarithmic, 80.0, 130.0, 0.0, 200.0}, Numbers::plain, 25.0, extent)),
            (Labels{"80", "90", "100", "110", "120", "130"}));
}

/// 1, 2 or 5 times a power of ten?
bool is_one_two_five(double value) {
  const double mantissa = value / std::pow(10.0, std::floor(std::log10(value) + 1e-9));
  for (const double nice : {1.0, 2.0, 5.0}) {
    if (std::abs(mantissa - nice) < 1e-6) return true;
  }
  return false;
}

TEST(TicksTest, LinearTicksAreRoundAndCoverTheRangeForAnyRange) {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> part(-1.0, 1.0), power(-9.0, 9.0), length(120.0, 800.0);
  for (int i = 0; i < 5000; ++i) {
    AxisMap axis;
    const double size = std::pow(10.0, power(random));
    axis.low = size * part(random) * (i % 5 == 0 ? 100.0 : 1.0);
    axis.high = axis.low + size * (0.01 + std::abs(part(random)));
    axis.to_pt = length(random);
    const std::vector<Tick> row = ticks(axis, Numbers::plain, 30.0, [](const std::string&) { return 8.0; });
    ASSERT_GE(row.size(), 2u) << axis.low << " " << axis.high;
    ASSERT_LE(row.size(), static_cast<std::size_t>(axis.to_pt / 30.0) + 1);
    const double step = row[1].at - row[0].at;
    EXPECT_TRUE(is_one_two_five(step)) << step << " " << axis.low << " " << axis.high;
    EXPECT_NEAR(row[0].at / step, std::round(row[0].at / step), 1e-5);
    EXPECT_LT(row.front().at - axis.low, step * (1.0 + 1e-6));
    EXPECT_LT(axis.high - row.back().at, step * (1.0 + 1e-6));
    EXPECT_GE(row.front().at, axis.low);
    EXPECT_LE(row.back().at, axis.high);
    // Labels tell ticks apart.
    for (std::size_t k = 1; k < row.size(); ++k) EXPECT_NE(row[k].label, row[k - 1].label) << axis.low << " " << axis.high;
  }
}

TEST(TicksTest, LogarithmicTicksAreOneTwoFiveForAnyRange) {
  std::mt19937_64 random(8);
  std::uniform_real_distribution<double> power(-6.0, 6.0), decades(1.1, 8.0);
  for (int i = 0; i < 3000; ++i) {
    AxisMap axis{Scale::logarithmic, std::pow(10.0, power(random)), 0.0, 0.0, 300.0};
    axis.high = axis.low * std::pow(10.0, decades(random));
    const std::vector<Tick> row = ticks(axis, i % 2 ? Numbers::kilo : Numbers::plain, 10.0, extent);
    ASSERT_GE(row.size(), 1u);
    ASSERT_LE(row.size(), 30u);
    for (const Tick& tick : row) {
      EXPECT_TRUE(is_one_two_five(tick.at)) << tick.at;
      EXPECT_GE(tick.at, axis.low);
      EXPECT_LE(tick.at, axis.high);
    }
  }
}

TEST(TicksTest, LabelsNeverTouch) {
  std::mt19937_64 random(9);
  std::uniform_real_distribution<double> part(0.0, 1.0), power(-7.0, 7.0), length(40.0, 500.0);
  for (int i = 0; i < 5000; ++i) {
    AxisMap axis;
    axis.scale = i % 2 ? Scale::logarithmic : Scale::linear;
    axis.low = std::pow(10.0, power(random));
    axis.high = axis.scale == Scale::linear ? axis.low + std::pow(10.0, power(random)) : axis.low * std::pow(10.0, 0.05 + 6.0 * part(random));
    if (axis.high - axis.low < 1e-8 * axis.high) continue;
    axis.to_pt = length(random);
    const std::vector<Tick> row = ticks(axis, Numbers::kilo, 5.0, extent);
    for (std::size_t k = 1; k < row.size(); ++k) {
      const double apart = axis.to_page(row[k].at) - axis.to_page(row[k - 1].at);
      EXPECT_GE(apart, (extent(row[k].label) + extent(row[k - 1].label)) / 2.0 + kLabelGap_pt - 1e-9);
    }
  }
}

TEST(TicksTest, RoundsOutwardToWholeSteps) {
  const Range range = rounded_outward({-73.2, 3.1}, 4);
  EXPECT_DOUBLE_EQ(range.low, -80.0);
  EXPECT_DOUBLE_EQ(range.high, 10.0);
  // A quarter of 8 is 2: whole twos.
  EXPECT_DOUBLE_EQ(rounded_outward({1.1, 9.1}, 4).low, 0.0);
  const Range kept = rounded_outward({0.0, 10.0}, 5);
  EXPECT_DOUBLE_EQ(kept.low, 0.0);
  EXPECT_DOUBLE_EQ(kept.high, 10.0);
}

TEST(TicksTest, AnEmptyRangeIsABrokenPromise) {
  EXPECT_THROW(ticks({Scale::linear, 1.0, 1.0, 0.0, 100.0}, Numbers::plain, 30.0, extent), InternalError);
  EXPECT_THROW(ticks({Scale::logarithmic, 0.0, 1.0, 0.0, 100.0}, Numbers::plain, 30.0, extent), InternalError);
}

}  // namespace
}  // namespace ringfall::plot
