// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/thinning.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <random>

namespace ringfall::plot {
namespace {

Frame frame() {
  Frame result;
  result.place = {50.0, 20.0, 450.0, 220.0};
  result.x = {Scale::linear, 0.0, 1.0, 50.0, 450.0};
  result.y = {Scale::linear, -1.0, 1.0, 220.0, 20.0};
  return result;
}

std::vector<double> ramp(std::size_t n) {
  std::vector<double> x;
  for (std::size_t i = 0; i < n; ++i) x.push_back(static_cast<double>(i) / static_cast<double>(n));
  return x;
}

TEST(ThinningTest, OneSampleSpikeSurvivesAtItsPlace) {
  const std::vector<double> x = ramp(48000);
  std::vector<double> y(x.size(), 0.0);
  y[31234] = 0.9;
  const PageRuns thinned = thin(x, y, frame());
  ASSERT_EQ(thinned.runs.size(), 1u);
  EXPECT_LT(thinned.runs[0].size(), 4u * 3400u);
  const auto spike = std::ranges::min_element(thinned.runs[0], {}, &Point::y);
  EXPECT_NEAR(spike->y, 120.0 - 0.9 * 100.0, 1e-9);
  EXPECT_NEAR(spike->x, 50.0 + 400.0 * 31234.0 / 48000.0, 1e-9);
}

// Reference: the highest and lowest of each column by a plain loop.
TEST(ThinningTest, EveryColumnKeepsItsFirstLowestHighestAndLast) {
  std::mt19937_64 random(3);
  std::uniform_real_distribution<double> value(-1.0, 1.0);
  const std::vector<double> x = ramp(200000);
  std::vector<double> y;
  for (std::size_t i = 0; i < x.size(); ++i) y.push_back(value(random));
  struct Ends {
    double first = 0.0, low = 1e9, high = -1e9, last = 0.0;
  };
  const auto columns_of = [](const std::vector<Point>& points) {
    std::map<long, Ends> columns;
    for (const Point& p : points) {
      Ends& ends = columns.try_emplace(static_cast<long>(std::floor((p.x - 50.0) / kColumn_pt)), Ends{p.y}).first->second;
      ends.low = std::min(ends.low, p.y);
      ends.high = std::max(ends.high, p.y);
      ends.last = p.y;
    }
    return columns;
  };
  std::vector<Point> all;
  for (std::size_t i = 0; i < x.size(); ++i) all.push_back(frame().to_page({x[i], y[i]}));
  const auto expected = columns_of(all);
  const PageRuns thinned = thin(x, y, frame());
  const auto got = columns_of(thinned.runs.at(0));
  ASSERT_EQ(got.size(), expected.size());
  for (const auto& [column, ends] : expected) {
    const Ends& kept = got.at(column);
    EXPECT_EQ(kept.first, ends.first);
    EXPECT_EQ(kept.low, ends.low);
    EXPECT_EQ(kept.high, ends.high);
    EXPECT_EQ(kept.last, ends.last);
  }
  EXPECT_LE(thinned.runs[0].size(), 4 * expected.size());
  EXPECT_TRUE(std::ranges::is_sorted(thinned.runs[0], {}, &Point::x));
}

TEST(ThinningTest, FewPointsStayAsTheyAre) {
  const std::vector<double> x{0.0, 0.3, 0.1, 0.9};
  const std::vector<double> y{0.0, 0.5, -0.5, 1.0};
  const PageRuns thinned = thin(x, y, frame());
  ASSERT_EQ(thinned.runs.at(0).size(), 4u);
  EXPECT_DOUBLE_EQ(thinned.runs[0][2].x, 90.0);
}

TEST(ThinningTest, WhatHasNoPlaceIsAGap) {
  const double nan = std::nan("");
  const double inf = std::numeric_limits<double>::infinity();
  const std::vector<double> x{0.0, 0.1, 0.2, 0.3, nan, 0.5, 0.6};
  const std::vector<double> y{0.0, 0.1, nan, 0.3, 0.4, -inf, 0.6};
  const PageRuns thinned = thin(x, y, frame());
  EXPECT_EQ(thinned.without_place, 3u);
  ASSERT_EQ(thinned.runs.size(), 3u);
  EXPECT_EQ(thinned.runs[0].size(), 2u);
  EXPECT_EQ(thinned.runs[1].size(), 1u);
  EXPECT_TRUE(thin({}, {}, frame()).runs.empty());
}

}  // namespace
}  // namespace ringfall::plot
