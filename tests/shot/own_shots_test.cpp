// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/own_shots.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "shot/distractors.h"
#include "shot/invented_range.h"
#include "shot/judge_finder.h"

/// The truth is what was put there: invented ranges, and lists of events whose levels and lags are made up.
namespace ringfall::shot {
namespace {

constexpr double kRangeRate_hz = 48000.0;

/// The ranges from plan `first` to `last`, on seeds that chose no cost.
Agreement over_ranges(std::size_t first, std::size_t last, std::uint64_t seed, int seeds) {
  const auto plans = range_plans();
  Agreement all;
  for (std::size_t k = first; k <= last; ++k) {
    for (int n = 0; n < seeds; ++n) all.add(judge(make_range(plans[k], seed + static_cast<std::uint64_t>(n))));
  }
  return all;
}

Event heard(double at_s, double level_db, double lag_s) {
  Event event;
  event.onset_sample = static_cast<std::int64_t>(at_s * kRangeRate_hz);
  if (lag_s > 0.0) event.impact_sample = event.onset_sample + static_cast<std::int64_t>(lag_s * kRangeRate_hz);
  event.edge_db = level_db;
  event.body_db = level_db - 8.0;
  event.brightness_hz = 5000.0;
  event.likeness = 1.0;
  return event;
}

// No other sound at all: five shots and five of a set-up 8 dB quieter, or 6 dB quieter and from 10 m; walks; six set-ups 2 dB apart.
TEST(OwnShots, AQuieterSetUpAloneIsTheArchersSlowUnderSanitizer) {
  const auto all = over_ranges(0, 4, 31, 3);
  EXPECT_EQ(all.shots, 3 * (10 + 10 + 15 + 27 + 24));
  EXPECT_EQ(all.missed, 0);
  EXPECT_EQ(all.extra, 0);
}

// The same levels without scatter, and nothing is said.
TEST(OwnShots, PlainStepsLeaveNoWord) {
  for (const double lag_s : {0.344, 0.187}) {
    std::vector<Event> events;
    for (int k = 0; k < 5; ++k) events.push_back(heard(1.0 + 9.0 * k, -25.0, 0.344));
    for (int k = 5; k < 10; ++k) events.push_back(heard(1.0 + 9.0 * k, lag_s < 0.2 ? -31.0 : -33.0, lag_s));
    const auto selection = select_shots(events, kRangeRate_hz, {});
    EXPECT_EQ(selection.shots.size(), 10U);
    EXPECT_TRUE(selection.findings.empty());
    EXPECT_TRUE(selection.in_doubt.empty());
  }
}

// Set-ups 10 dB apart, two distances, a neighbour 4.5 to 9 dB under the faintest own shot near him, with a lag of his own or not.
TEST(OwnShots, NeighboursBetweenSetUpsSlowUnderSanitizer) {
  const auto all = over_ranges(7, 7, 41, 3);
  EXPECT_EQ(all.shots, 90);
  EXPECT_LE(all.missed, 1);
  EXPECT_LE(all.extra, 2);
  EXPECT_EQ(all.extra_unnamed, 0);
}

// One as loud as the archer, two in one bay: nearly every own shot counts.
TEST(OwnShots, AsLoudAsTheArcherSlowUnderSanitizer) {
  Agreement all = over_ranges(9, 9, 51, 2);
  all.add(over_ranges(11, 12, 51, 2));
  EXPECT_EQ(all.shots, 60 + 48);
  EXPECT_LE(all.missed, 1);
}

// Two archers in turn, equally loud, 18 m and 10 m: all count, and the caution names them and the way out.
TEST(OwnShots, TwoArchersInTurnAreNamed) {
  std::vector<Event> events;
  for (int k = 0; k < 16; ++k) events.push_back(heard(2.0 + 8.0 * k, -25.0, k % 2 == 0 ? 0.344 : 0.187));
  const auto selection = select_shots(events, kRangeRate_hz, {});
  EXPECT_EQ(selection.shots.size(), 16U);
  EXPECT_EQ(selection.in_doubt.size(), 14U);  // the first and the last have one side only
  ASSERT_EQ(selection.findings.size(), 1U);
  EXPECT_EQ(selection.findings[0].code, "own_or_neighbour");
  EXPECT_EQ(selection.findings[0].severity, Severity::caution);
  EXPECT_NE(selection.findings[0].sentence.find("Shots 2-15 "), std::string::npos) << selection.findings[0].sentence;
  EXPECT_NE(selection.findings[0].sentence.find("--expect"), std::string::npos);
}

// Twelve own shots, two claps 20 dB louder: the shots stay, the claps count and are named.
TEST(OwnShots, LouderExceptionsTakeNothing) {
  Dice dice(9);
  std::vector<Event> events;
  for (int k = 0; k < 12; ++k) events.push_back(heard(2.0 + 9.0 * k, -30.0 + dice.normal(1.0), 0.344));
  events.push_back(heard(130.0, -10.0, 0.0));
  events.push_back(heard(140.0, -10.0, 0.0));
  const auto told = own_shots(events, kRangeRate_hz);
  EXPECT_EQ(told.own.size(), 14U);
  EXPECT_EQ(told.doubtful, (std::vector<std::size_t>{12, 13}));
}

}  // namespace
}  // namespace ringfall::shot
