// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "compare/made_up_session.h"

namespace ringfall::compare {
namespace {

/// One session a value, ten days apart; three shots each, 0.2 dB apart round it, hum 3, one tone at 100 Hz.
struct Season {
  Session session;
  std::vector<Evening> evenings;

  explicit Season(const std::vector<double>& exposures) {
    for (std::size_t k = 0; k < exposures.size(); ++k) {
      const int number = static_cast<int>(k) + 1;
      session.blocks.push_back(exposure_block("bare", number, {exposures[k] - 0.2, exposures[k], exposures[k] + 0.2}, number));
      session.blocks.back().facts.bow = "recurve";
      for (auto& entry : session.blocks.back().shots) {
        entry.shot.hum = 3.0;
        entry.shot.arrow_speed_m_s = 60.0;
        entry.shot.tones.push_back({100.0, 60.0, 0.3, 0.01, shot::ToneFamily::hum});
      }
      evenings.push_back({number, "", 10.0 * static_cast<double>(k), std::nullopt});
    }
  }
  std::vector<Trigger> triggers() const { return season_of(session, evenings).at(0).triggers; }
  bool has(TriggerKind kind) const {
    const auto all = triggers();
    return std::ranges::any_of(all, [kind](const Trigger& trigger) { return trigger.kind == kind; });
  }
  std::vector<SessionShot>& shots(std::size_t k) { return session.blocks[k].shots; }
};

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

// The check tone and the bow rise together: that is the microphone, and nobody needs to stop.
TEST(Season, ChainDriftIsKeptApartFromTheBow) {
  Season season({-40.0, -40.0, -40.0, -37.0});
  for (std::size_t k = 0; k < 4; ++k) season.evenings[k].check_tone_db = k == 3 ? -17.0 : -20.0;
  const auto triggers = season.triggers();
  ASSERT_EQ(triggers.size(), 2U);
  EXPECT_EQ(triggers[0].kind, TriggerKind::chain);
  EXPECT_FALSE(triggers[0].inspect);
  EXPECT_EQ(triggers[1].kind, TriggerKind::louder);
  EXPECT_FALSE(triggers[1].inspect);
  EXPECT_NE(season_of(season.session, season.evenings)[0].chain_note.find("drifted"), std::string::npos);
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
