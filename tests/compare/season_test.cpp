// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season.h"

#include <gtest/gtest.h>

#include <utility>

#include "compare/made_up_season.h"

namespace ringfall::compare {
namespace {

using Season = MadeUpSeason;

TEST(Season, ASteadyBowAsksForNothing) {
  EXPECT_TRUE(Season({-40.0, -40.3, -39.8, -40.1, -40.2}).triggers().empty());
}

// Theil-Sen by hand: every pair of sessions rises by 0.1 dB in ten days.
TEST(Season, TrendOverTheDays) {
  const Season season({-40.0, -39.9, -39.8, -39.7, -39.6});
  const auto found = season_of(season.session, season.evenings);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].bow, "recurve");
  const auto& trend = found[0].trends.front();
  EXPECT_EQ(trend.measure.id, "exposure_db");
  EXPECT_NEAR(trend.per_day.value().slope, 0.01, 1e-12);
  EXPECT_NEAR(trend.per_day->interval.value().low, 0.01, 1e-9);
  // Five in order: 2 / 5! = 0.0167 two-sided (Kendall's exact distribution).
  EXPECT_NEAR(trend.rise.value().p, 2.0 / 120.0, 1e-12);
}

// Two decibels over the last three sessions: stop and inspect (limits are common practice, no source).
TEST(Season, LouderStopsTheShooting) {
  EXPECT_FALSE(Season({-40.0, -40.0, -40.0, -38.1}).has(TriggerKind::louder));
  const Season louder({-40.0, -40.0, -40.0, -37.9});
  EXPECT_TRUE(louder.has(TriggerKind::louder));
  EXPECT_TRUE(louder.triggers()[0].inspect);
  EXPECT_NE(louder.triggers()[0].sentence.find("Stop and inspect"), std::string::npos);
  // Two sessions before are too few to know what is usual.
  EXPECT_TRUE(Season({-40.0, -40.0, -30.0}).triggers().empty());
}

// Earlier ones -40, -40.2, -39.8, -40: mean -40, SD 0.163; the limit is -39.67.
TEST(Season, TwoSessionsBeyondTwoDeviations) {
  EXPECT_TRUE(Season({-40.0, -40.2, -39.8, -40.0, -39.5, -39.5}).has(TriggerKind::two_high));
  EXPECT_FALSE(Season({-40.0, -40.2, -39.8, -40.0, -39.5, -39.9}).has(TriggerKind::two_high));
}

TEST(Season, HumTonesSpreadAndSpeed) {
  Season season({-40.0, -40.0, -40.0, -40.0});
  for (auto& entry : season.shots(3)) {
    entry.shot.hum = 4.6;
    entry.shot.tones[0].frequency_hz = 95.0;  // 5 % off: a known one moved
    entry.shot.tones.push_back({1500.0, 50.0, 0.1, 0.01, shot::ToneFamily::ping});
    entry.shot.arrow_speed_m_s = 59.0;
  }
  season.shots(3)[0].shot.levels.exposure_db = -40.6;
  season.shots(3)[2].shot.levels.exposure_db = -39.4;
  for (const auto kind : {TriggerKind::more_hum, TriggerKind::tone_moved, TriggerKind::new_tone, TriggerKind::speed, TriggerKind::spread}) {
    EXPECT_TRUE(season.has(kind)) << static_cast<int>(kind);
  }
  for (auto& entry : season.shots(3)) {
    entry.shot.tones[0].frequency_hz = 102.0;  // 2 %: the same
    entry.shot.tones.pop_back();
    entry.shot.arrow_speed_m_s = 59.7;         // 0.5 %
    entry.shot.hum = 4.4;
  }
  EXPECT_FALSE(season.has(TriggerKind::tone_moved));
  EXPECT_FALSE(season.has(TriggerKind::new_tone));
  EXPECT_FALSE(season.has(TriggerKind::speed));
  EXPECT_FALSE(season.has(TriggerKind::more_hum));
}

TEST(Season, ABuzzOfOneRate) {
  Season season({-40.0, -40.0, -40.0, -40.0});
  for (auto& entry : season.shots(3)) entry.shot.buzz = shot::Buzz{18.0, 120.0};
  EXPECT_TRUE(season.has(TriggerKind::buzz));
  season.shots(3)[1].shot.buzz->rate_hz = 60.0;
  EXPECT_FALSE(season.has(TriggerKind::buzz));
}

// A silent bow was listened to: its first tone is new. One without a score was not, and nothing can be said.
TEST(Season, ANewToneOnASilentBow) {
  Season season({-40.0, -40.0, -40.0, -40.0});
  for (std::size_t k = 0; k < 4; ++k) {
    for (auto& entry : season.shots(k)) {
      entry.shot.tones.clear();
      entry.shot.hum = 0.0;
      entry.shot.ping = 0.0;
      if (k == 3) entry.shot.tones.push_back({1500.0, 50.0, 0.1, 0.01, shot::ToneFamily::ping});
    }
  }
  EXPECT_TRUE(season.stops(TriggerKind::new_tone));
  EXPECT_NE(season.sentence(TriggerKind::new_tone).find("1.50 kHz"), std::string::npos);
  for (auto& entry : season.shots(1)) entry.shot.hum.reset();
  EXPECT_TRUE(season.has(TriggerKind::new_tone)) << "a hum not listened for says nothing of pings";
  for (auto& entry : season.shots(1)) entry.shot.ping.reset();
  EXPECT_FALSE(season.has(TriggerKind::new_tone)) << "two sessions that could be listened to are too few";
}

// Half of the shots that could be listened to must show it: two of three do, one of three does not, one of one does.
TEST(Season, AToneCountsInHalfOfTheShots) {
  Season season({-40.0, -40.0, -40.0, -40.0});
  season.shots(3)[0].shot.tones.push_back({1500.0, 50.0, 0.1, 0.01, shot::ToneFamily::ping});
  EXPECT_FALSE(season.has(TriggerKind::new_tone));
  season.shots(3)[1].shot.ping.reset();
  season.shots(3)[2].shot.ping.reset();
  EXPECT_TRUE(season.has(TriggerKind::new_tone));
  season.shots(3)[1].shot.ping = 1.0;
  season.shots(3)[2].shot.ping = 1.0;
  season.shots(3)[1].shot.tones.push_back({1500.0, 50.0, 0.1, 0.01, shot::ToneFamily::ping});
  EXPECT_TRUE(season.has(TriggerKind::new_tone));
}

// Limits of docs/measures/season.md#triggers (common practice, no source), just this side and that: 2 dB and above each of the three;
// 2 SD; 1.5 points and above each; 3 % and 8 % of a tone; twice the spread; 1 % of speed either way.
TEST(Season, LimitsThisSideAndThat) {
  // Mean of the three -41, so 2.5 over; but one of them was as loud.
  EXPECT_FALSE(Season({-42.5, -42.0, -38.5, -38.5}).has(TriggerKind::louder));
  EXPECT_TRUE(Season({-42.5, -42.0, -38.5, -38.4}).has(TriggerKind::louder));
  // Mean -40, SD 0.163: 2 SD are 0.327, 3 SD 0.49.
  EXPECT_TRUE(Season({-40.0, -40.2, -39.8, -40.0, -39.65, -39.65}).has(TriggerKind::two_high));
  EXPECT_FALSE(Season({-40.0, -40.2, -39.8, -40.0, -39.7, -39.65}).has(TriggerKind::two_high));

  Season season({-40.0, -40.0, -40.0, -40.0});
  const auto set_hum = [&](std::size_t k, double hum) {
    for (auto& entry : season.shots(k)) entry.shot.hum = hum;
  };
  set_hum(1, 4.9);  // mean of the three 3.63
  set_hum(3, 4.9);
  EXPECT_FALSE(season.has(TriggerKind::more_hum)) << "not above each";
  set_hum(3, 5.2);
  EXPECT_TRUE(season.has(TriggerKind::more_hum));
  set_hum(1, 3.0);
  set_hum(3, 3.0);

  const auto set_tone = [&](double hz) {
    for (auto& entry : season.shots(3)) entry.shot.tones[0].frequency_hz = hz;
  };
  set_tone(102.9);
  EXPECT_FALSE(season.has(TriggerKind::tone_moved));
  set_tone(103.1);
  EXPECT_TRUE(season.has(TriggerKind::tone_moved));
  set_tone(107.9);
  EXPECT_TRUE(season.has(TriggerKind::tone_moved));
  EXPECT_FALSE(season.has(TriggerKind::new_tone));
  set_tone(108.1);
  EXPECT_FALSE(season.has(TriggerKind::tone_moved));
  EXPECT_TRUE(season.has(TriggerKind::new_tone));
  set_tone(100.0);

  const auto set_spread = [&](double half_db) {
    season.shots(3)[0].shot.levels.exposure_db = -40.0 - half_db;
    season.shots(3)[2].shot.levels.exposure_db = -40.0 + half_db;
  };
  set_spread(0.39);
  EXPECT_FALSE(season.has(TriggerKind::spread));
  set_spread(0.41);
  EXPECT_TRUE(season.has(TriggerKind::spread));
  set_spread(0.2);

  for (const auto& [speed_m_s, seen] : {std::pair{60.59, false}, std::pair{60.61, true}, std::pair{59.41, false}, std::pair{59.39, true}}) {
    for (auto& entry : season.shots(3)) entry.shot.arrow_speed_m_s = speed_m_s;
    EXPECT_EQ(season.has(TriggerKind::speed), seen) << speed_m_s;
  }
}

// Days since 1970-01-01: 2000-03-01 is 11017 (any calendar); 2024 has a 29th of February.
TEST(Season, DaysOfDates) {
  EXPECT_EQ(day_of("1970-01-01"), 0.0);
  EXPECT_EQ(day_of("2000-03-01T12:00:00Z"), 11017.5);
  EXPECT_EQ(day_of("2024-03-01").value() - day_of("2024-02-28").value(), 2.0);
  EXPECT_FALSE(day_of("yesterday"));
  EXPECT_FALSE(day_of(""));
}

}  // namespace
}  // namespace ringfall::compare
