// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

#include "shot/distractors.h"
#include "shot/find.h"
#include "shot/judge_finder.h"

namespace ringfall::shot {
namespace {

constexpr double kRate_hz = 48000.0;

Event event_at(double at_s, double level_db, double lag_s) {
  Event event;
  event.onset_sample = static_cast<std::int64_t>(at_s * kRate_hz);
  if (lag_s > 0.0) event.impact_sample = event.onset_sample + static_cast<std::int64_t>(lag_s * kRate_hz);
  event.edge_db = level_db;
  event.body_db = level_db - 4.0;
  event.brightness_hz = 3500.0;
  event.likeness = 1.0;
  return event;
}

/// `count` events at the level +- 1 dB SD, every 7 s from `from_s`.
void add_series(std::vector<Event>& events, int count, double from_s, double level_db, double lag_s, Dice& dice) {
  for (int k = 0; k < count; ++k) {
    const double lag = lag_s > 0.0 ? lag_s * (1.0 + dice.normal(0.005)) : 0.0;
    events.push_back(event_at(from_s + 7.0 * k, level_db + dice.normal(1.0), lag));
  }
  std::ranges::sort(events, {}, &Event::onset_sample);
}

// 100 shots and 40 of a neighbour 7 to 14 dB fainter: none of them counts. The counts are what was put there.
TEST(Select, NeighboursDoNotCount) {
  for (const double below_db : {8.0, 10.0, 14.0}) {
    Dice dice(3);
    std::vector<Event> events;
    add_series(events, 100, 1.0, -25.0, 0.34, dice);
    add_series(events, 40, 4.0, -25.0 - below_db, 0.41, dice);
    const auto selection = select_shots(events, kRate_hz, {});
    EXPECT_EQ(selection.shots.size(), 100U) << below_db;
    EXPECT_TRUE(has_finding(selection.findings, "neighbour_shot")) << below_db;
    EXPECT_TRUE(std::ranges::is_sorted(selection.shots));
  }
}

// A busy line: four neighbours' shots for each own one.
TEST(Select, ManyNeighboursDoNotCount) {
  Dice dice(4);
  std::vector<Event> events;
  add_series(events, 6, 1.0, -25.0, 0.34, dice);
  add_series(events, 24, 4.0, -35.0, 0.41, dice);
  EXPECT_EQ(select_shots(events, kRate_hz, {}).shots.size(), 6U);
}

// Two set-ups 4 dB apart are both the archer's.
TEST(Select, QuieterSetUpCounts) {
  Dice dice(5);
  std::vector<Event> events;
  add_series(events, 10, 1.0, -25.0, 0.34, dice);
  add_series(events, 10, 100.0, -29.0, 0.34, dice);
  const auto selection = select_shots(events, kRate_hz, {});
  EXPECT_EQ(selection.shots.size(), 20U);
  EXPECT_TRUE(selection.findings.empty());
}

TEST(Select, ExpectKeepsTheMostShotLike) {
  Dice dice(6);
  std::vector<Event> events;
  add_series(events, 5, 1.0, -25.0, 0.34, dice);
  add_series(events, 5, 4.0, -33.0, 0.41, dice);
  FindSettings settings;
  settings.expect = 5;
  auto selection = select_shots(events, kRate_hz, settings);
  ASSERT_EQ(selection.shots.size(), 5U);
  for (const std::size_t k : selection.shots) EXPECT_GT(events[k].edge_db, -29.0);
  EXPECT_TRUE(has_finding(selection.findings, "events_left_out"));
  settings.expect = 10;
  EXPECT_EQ(select_shots(events, kRate_hz, settings).shots.size(), 10U);
  settings.expect = 12;
  selection = select_shots(events, kRate_hz, settings);
  EXPECT_EQ(selection.shots.size(), 10U);
  EXPECT_TRUE(has_finding(selection.findings, "fewer_than_expected"));
}

// A number set too high finds the shots that are there and says so; it makes no shots of noise.
TEST(Select, ExpectTakesNoNoise) {
  Dice dice(8);
  std::vector<Event> events;
  add_series(events, 5, 1.0, -25.0, 0.34, dice);
  for (int k = 0; k < 7; ++k) {
    events.push_back(event_at(60.0 + k, -30.0, 0.0));
    events.back().likeness = 0.04;
  }
  FindSettings settings;
  settings.expect = 12;
  const auto selection = select_shots(events, kRate_hz, settings);
  EXPECT_EQ(selection.shots, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
  EXPECT_TRUE(has_finding(selection.findings, "fewer_than_expected"));
}

TEST(Select, NothingAndOne) {
  EXPECT_TRUE(select_shots({}, kRate_hz, {}).shots.empty());
  std::vector<Event> one{event_at(1.0, -60.0, 0.0)};
  EXPECT_EQ(select_shots(one, kRate_hz, {}).shots.size(), 1U);
  one[0].likeness = 0.4;  // a lone doubtful sound
  EXPECT_TRUE(select_shots(one, kRate_hz, {}).shots.empty());
}

// Ten shots with one lag, one with another: that one's impact is some other sound. Without any agreement none is believed.
TEST(Select, LoneImpactsAreDoubtful) {
  Dice dice(7);
  std::vector<Event> events;
  add_series(events, 10, 1.0, -25.0, 0.34, dice);
  events.push_back(event_at(100.0, -25.0, 0.90));
  EXPECT_EQ(select_shots(events, kRate_hz, {}).doubtful_impacts, std::vector<std::size_t>{10});
  std::vector<Event> scattered;
  for (const double lag_s : {0.2, 0.5, 0.9, 1.4}) scattered.push_back(event_at(10.0 * lag_s, -25.0, lag_s));
  EXPECT_EQ(select_shots(scattered, kRate_hz, {}).doubtful_impacts.size(), 4U);
}

// Sound, not events: a neighbour on every evening, also four times as busy as the archer, also with two set-ups.
TEST(Select, InventedEveningsWithNeighboursSlowUnderSanitizer) {
  EveningPlan plain, crowd, step;
  plain.neighbour = crowd.neighbour = step.neighbour = true;
  crowd.neighbours_a_shot = 4;
  crowd.shots = 6;
  step.setup_step_db = 3.0;
  for (const EveningPlan& plan : {plain, crowd, step}) {
    Agreement all;
    for (std::uint64_t seed = 501; seed < 504; ++seed) all.add(judge(make_evening(plan, seed)));
    EXPECT_EQ(all.missed, 0);
    // A neighbour 6 dB fainter beside two set-ups 3 dB apart can't always be told: an own shot lost costs more than one of his
    // kept, so he may count once, if he is named.
    EXPECT_LE(all.extra, plan.setup_step_db > 0.0 ? 1 : 0);
    EXPECT_EQ(all.extra_unnamed, 0);
  }
}

}  // namespace
}  // namespace ringfall::shot
