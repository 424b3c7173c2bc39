// SPDX-License-Identifier: GPL-3.0-or-later
// Levels of two scales are not held against each other, and what the check tone did is taken off.
#include "compare/season_scale.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

#include "compare/made_up_season.h"
#include "shot/ring_score.h"

namespace ringfall::compare {
namespace {

using Season = MadeUpSeason;

const SeasonTrend& trend_named(const SetUpSeason& season, const std::string& id) {
  return *std::ranges::find(season.trends, id, [](const SeasonTrend& trend) { return trend.measure.id; });
}

// Full scale near 118 dB: -44 dB re full scale are 74 dB re 20 uPa of the same bow. No source: any such step is the scale's.
TEST(SeasonScale, ACalibrationIsNoLouderBow) {
  Season season({-44.0, -44.1, -43.9, 74.0});
  season.evenings[3].calibrated = true;
  for (auto& entry : season.shots(3)) entry.shot.hum = 6.0;  // an uncalibrated one takes a full-scale peak for 120 dB: another scale too
  EXPECT_TRUE(season.triggers().empty()) << season.triggers()[0].sentence;
  const auto read = season.read();
  EXPECT_EQ(trend_named(read, "exposure_db").sessions, 1U);
  EXPECT_EQ(trend_named(read, "hum").sessions, 1U);
  EXPECT_EQ(trend_named(read, "ping").sessions, 1U);
  EXPECT_EQ(trend_named(read, "arrow_speed_m_s").sessions, 4U) << "a speed has no scale";
  EXPECT_NE(read.scale_note.find("their trend is that of session 4"), std::string::npos) << read.scale_note;
  EXPECT_NE(read.scale_note.find("sessions 1, 2, 3 (not calibrated)"), std::string::npos) << read.scale_note;
  // The other way round as well, and each on its own scale still counts.
  Season back({74.0, -44.0, 74.0, 74.0, -44.0, -44.0, 74.0, -41.9});
  for (const std::size_t k : {0U, 2U, 3U, 6U}) back.evenings[k].calibrated = true;
  EXPECT_EQ(back.triggers().size(), 1U);
  EXPECT_EQ(back.triggers()[0].session, 8);
  EXPECT_NE(back.read().scale_note.find("(calibrated, unlike the newest)"), std::string::npos);
}

TEST(SeasonScale, OtherMicrophonesAreOfAnotherScaleUnlessCalibrated) {
  Season season({-40.0, -40.0, -40.0, -30.0});
  for (auto& evening : season.evenings) evening.microphone = "small one";
  EXPECT_TRUE(season.has(TriggerKind::louder));
  EXPECT_TRUE(season.read().scale_note.empty());
  season.evenings[3].microphone = "phone";
  EXPECT_FALSE(season.has(TriggerKind::louder));
  EXPECT_NE(season.read().scale_note.find("another microphone"), std::string::npos) << season.read().scale_note;
  season.evenings[3].microphone = "";  // not said
  EXPECT_TRUE(season.has(TriggerKind::louder));
  season.evenings[3].chain = "gain at 6";
  season.evenings[2].chain = "gain at 3";
  EXPECT_FALSE(season.has(TriggerKind::louder)) << "two sessions before it are of its scale";
  season.evenings[2].chain = "";
  season.evenings[3].device = "card 1";
  season.evenings[1].device = "card 0";
  EXPECT_FALSE(season.has(TriggerKind::louder));
  season.evenings[2].chain = "gain at 3";
  for (auto& evening : season.evenings) evening.calibrated = true;
  EXPECT_TRUE(season.has(TriggerKind::louder)) << "calibrated ones are all re 20 uPa";
}

// By hand: 3 dB of bow less 3 dB of check tone is nothing; 2.1 less 1.9 is 0.2; 0 less -4 is 4.
TEST(SeasonScale, TheCheckTonesStepIsTakenOff) {
  const Season together({-40.0, -40.0, -40.0, -37.0}, {-20.0, -20.0, -20.0, -17.0});
  ASSERT_EQ(together.triggers().size(), 1U);
  EXPECT_EQ(together.triggers()[0].kind, TriggerKind::chain);
  EXPECT_FALSE(together.triggers()[0].inspect);
  EXPECT_NE(together.read().chain_note.find("judged less the check tone's steps"), std::string::npos);
  EXPECT_TRUE(Season({-40.0, -40.0, -40.0, -37.9}, {-20.0, -20.0, -20.0, -18.1}).triggers().empty());
  const Season hidden({-40.0, -40.0, -40.0, -40.0}, {-20.0, -20.0, -20.0, -24.0});
  EXPECT_TRUE(hidden.stops(TriggerKind::louder));
  EXPECT_NE(hidden.sentence(TriggerKind::louder).find("+4.0 dB of sound exposure over the last three (the check tone's -4.0 dB taken off)"),
            std::string::npos)
      << hidden.sentence(TriggerKind::louder);
  // The trend of the exposure likewise: 1 dB in ten days of bow, all of it the check tone's.
  const auto drifting = Season({-40.0, -39.0, -38.0}, {-20.0, -19.0, -18.0}).read();
  EXPECT_TRUE(drifting.trends[0].less_check_tone);
  EXPECT_NEAR(drifting.trends[0].per_day.value().slope, 0.0, 1e-12);
}

// Without the tone in one of the three before, nothing can be taken off: the chain comes first, nobody is told to stop.
TEST(SeasonScale, AToneMissingBeforeLeavesTheChainInDoubt) {
  Season season({-40.0, -40.0, -40.0, -37.0}, {-20.0, -20.0, -20.0, -17.0});
  season.evenings[1].check_tone_db.reset();
  EXPECT_TRUE(season.has(TriggerKind::louder));
  EXPECT_FALSE(season.stops(TriggerKind::louder));
  EXPECT_NE(season.read().chain_note.find("without a check tone"), std::string::npos) << season.read().chain_note;
  // Of two sessions that lie high, the first had the chain's step.
  Season two({-40.0, -40.2, -39.8, -40.0, -39.0, -39.0});
  for (const auto& [k, tone_db] : {std::pair{3U, -20.0}, std::pair{4U, -17.0}, std::pair{5U, -18.5}}) two.evenings[k].check_tone_db = tone_db;
  EXPECT_TRUE(two.has(TriggerKind::two_high));
  EXPECT_FALSE(two.stops(TriggerKind::two_high));
}

// Earlier ones' SD is 0.163 dB; both last ones stand 3 dB higher, and so does the check tone since.
TEST(SeasonScale, AStepThatStaysIsNotTheBowsAtTheNextSession) {
  const std::vector<double> exposures = {-40.0, -40.2, -39.8, -40.0, -37.0, -37.0};
  EXPECT_TRUE(Season(exposures).has(TriggerKind::two_high));
  const Season season(exposures, {-20.0, -20.0, -20.0, -20.0, -17.0, -17.0});
  EXPECT_FALSE(season.has(TriggerKind::two_high));
  EXPECT_FALSE(season.has(TriggerKind::louder));
  // A bow that rises with a steady chain is still seen, and one that the falling chain hides.
  EXPECT_TRUE(Season(exposures, {-20.0, -20.0, -20.0, -20.0, -20.0, -20.0}).stops(TriggerKind::two_high));
  const std::vector<double> steady = {-40.0, -40.2, -39.8, -40.0, -40.0, -40.0};
  EXPECT_TRUE(Season(steady, {-20.0, -20.0, -20.0, -20.0, -21.5, -21.5}).stops(TriggerKind::two_high));
  EXPECT_FALSE(Season(steady, {-20.0, -20.0, -20.0, -20.0, -20.0, -20.0}).has(TriggerKind::two_high));
}

TEST(SeasonScale, ChainStepsCountFromTwoDecibels) {
  const Season less({-40.0, -40.0, -40.0, -40.0}, {-20.0, -20.0, -20.0, -18.1});
  EXPECT_FALSE(less.has(TriggerKind::chain));
  EXPECT_NE(less.read().chain_note.find("held still"), std::string::npos);
  const Season more({-40.0, -40.0, -40.0, -38.0}, {-20.0, -20.0, -20.0, -17.9});
  EXPECT_TRUE(more.has(TriggerKind::chain));
  EXPECT_NE(more.read().chain_note.find("drifted"), std::string::npos);
  // A tone read on another scale says nothing.
  Season other({-40.0, -40.0, -40.0, 78.0}, {-20.0, -20.0, -20.0, 98.0});
  other.evenings[3].calibrated = true;
  EXPECT_FALSE(other.has(TriggerKind::chain));
  EXPECT_NE(other.read().chain_note.find("No check tone"), std::string::npos);
}

// Closed form of the score (docs/measures/hum_ping.md): 95 Hz at 66 dB with 0.3 s, 3 dB up and down.
TEST(SeasonScale, AScoreRisesByFifteenHundredthsADecibel) {
  const auto score_at = [](double level_db) {
    const std::vector<shot::Tone> tones = {{95.0, level_db, 0.3, 0.01, shot::ToneFamily::hum}};
    return shot::score_of(shot::ring_amount(tones, shot::ToneFamily::hum, {}));
  };
  const auto measures = season_measures();
  EXPECT_EQ(measures[1].id, "hum");
  EXPECT_NEAR(per_chain_db(measures[1]), (score_at(69.0) - score_at(63.0)) / 6.0, 0.02);
  EXPECT_EQ(per_chain_db(measures[0]), 1.0);
  EXPECT_EQ(per_chain_db(measures[3]), 0.0) << "a ring-down time has no scale";
}

// 1.6 points of hum with 10 dB of chain: 0.15 points a decibel leave 0.1; without the tone they stop the shooting.
TEST(SeasonScale, HumIsJudgedLessTheChain) {
  Season season({-40.0, -40.0, -40.0, -30.0}, {-20.0, -20.0, -20.0, -10.0});
  for (auto& entry : season.shots(3)) entry.shot.hum = 4.6;
  EXPECT_FALSE(season.has(TriggerKind::more_hum));
  for (auto& evening : season.evenings) evening.check_tone_db.reset();
  EXPECT_TRUE(season.stops(TriggerKind::more_hum));
}

}  // namespace
}  // namespace ringfall::compare
