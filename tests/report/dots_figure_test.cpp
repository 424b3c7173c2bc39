// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "compare/made_up_session.h"
#include "report/session_report.h"
#include "report/setup_figures.h"

namespace ringfall::report {
namespace {

SessionReport report_of(compare::Session session) {
  ReportSource source;
  source.comparison = compare::compare_setups(session, std::nullopt, "exposure_db");
  source.session = std::move(session);
  return session_report(std::move(source));
}

template <typename Series>
std::vector<Series> series_of(const plot::Figure& figure) {
  std::vector<Series> all;
  for (const auto& series : figure.panels.at(0).series) {
    if (const auto* one = std::get_if<Series>(&series)) all.push_back(*one);
  }
  return all;
}

// By hand (tests/compare/number_difference_test.cpp): a mean of two such blocks has the variance 17.885 / 2, t(0.975, 2) = 4.302653, and is known
// to 12.87. Over the four and three shots it would be 6.6 and 3.8.
TEST(DotsFigure, TheIntervalIsThatOfTheUnit) {
  compare::Session session;
  session.blocks = {compare::exposure_block("bare", 1, {1, 2, 3}), compare::exposure_block("plug", 2, {4}),
                    compare::exposure_block("plug", 3, {5, 7}), compare::exposure_block("bare", 4, {10})};
  const auto report = report_of(session);
  const auto figure = dots_figure(report, *report.main_number);
  const auto means = series_of<plot::Intervals>(figure);
  ASSERT_EQ(means.size(), 2U);
  for (std::size_t k = 0; k < 2; ++k) {
    const auto& interval = means[k].intervals.at(0);
    EXPECT_DOUBLE_EQ(interval.mid, k == 0 ? 6.0 : 5.0);
    EXPECT_NEAR(0.5 * (interval.high - interval.low), 12.867, 0.01);
  }
  // Each block its own column and stroke: two by set-up, three points (from, to, gap) each.
  const auto dots = series_of<plot::Dots>(figure);
  EXPECT_EQ(dots.at(0).y, (std::vector<double>{1, 2, 3, 10}));
  EXPECT_EQ(dots.at(0).x[0], dots.at(0).x[2]);
  EXPECT_LT(dots.at(0).x[2], dots.at(0).x[3]);
  const auto strokes = series_of<plot::Trace>(figure);
  ASSERT_EQ(strokes.size(), 2U);
  EXPECT_EQ(strokes[1].y.size(), 6U);
  EXPECT_DOUBLE_EQ(strokes[1].y[3], 6.0);
  EXPECT_NE(dots_caption(report, *report.main_number).find("the mean of the blocks with its 95 % interval over blocks"), std::string::npos);
}

// One block each: shots have variance (1 + 19/3) / 2 by hand, blocks are taken to wander with 0.7 of their deviation: t(0.975, 4) = 2.776445.
TEST(DotsFigure, OneBlockEachCountsTheWander) {
  compare::Session session;
  session.blocks = {compare::exposure_block("bare", 1, {1, 2, 3}), compare::exposure_block("plug", 2, {4, 6, 9})};
  const auto report = report_of(session);
  const auto figure = dots_figure(report, *report.main_number);
  EXPECT_NEAR(series_of<plot::Intervals>(figure).at(0).intervals.at(0).high, 2.0 + 2.776445 * std::sqrt((0.49 + 1.0 / 3.0) * (1.0 + 19.0 / 3.0) / 2.0), 1e-5);
  EXPECT_TRUE(series_of<plot::Trace>(figure).empty());
  EXPECT_NE(dots_caption(report, *report.main_number).find("over blocks"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::report
