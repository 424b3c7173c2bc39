// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/tone_change.h"

#include <gtest/gtest.h>

namespace ringfall::report {
namespace {

SetUpTone tone(double frequency_hz, double level_db) {
  SetUpTone made;
  made.tone.frequency_hz = frequency_hz;
  made.tone.level_db = level_db;
  made.tone.ring_time_s = 0.2;
  made.levels_db = {level_db - 0.1, level_db, level_db + 0.1};
  return made;
}

TEST(ToneChange, PairsWithinThreePercentAreTheSame) {
  const SetUpTone before[] = {tone(100.0, 60.0), tone(1500.0, 50.0)};
  const SetUpTone after[] = {tone(1510.0, 50.0), tone(97.5, 55.0)};
  const auto changes = tone_changes(before, after);
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].match, ToneMatch::same);
  EXPECT_DOUBLE_EQ(changes[0].setup->tone.frequency_hz, 97.5);
  ASSERT_TRUE(changes[0].level_db);
  // By hand: both lists have the same shape round 60 and 55 dB.
  EXPECT_NEAR(changes[0].level_db->difference, -5.0, 1e-9);
}

TEST(ToneChange, FurtherAwayIsPerhapsMovedAndFartherIsAnother) {
  const SetUpTone before[] = {tone(100.0, 60.0), tone(300.0, 50.0)};
  const SetUpTone after[] = {tone(95.0, 60.0), tone(340.0, 50.0)};
  const auto changes = tone_changes(before, after);
  ASSERT_EQ(changes.size(), 3U);
  EXPECT_EQ(changes[0].match, ToneMatch::perhaps_moved);
  EXPECT_EQ(match_words(changes[0]), "perhaps the same, moved by -5.0 %");
  EXPECT_EQ(changes[1].match, ToneMatch::gone);
  EXPECT_EQ(changes[2].match, ToneMatch::added);
}

TEST(ToneChange, TheNearestPairComesFirstAndEachToneOnce) {
  const SetUpTone before[] = {tone(100.0, 60.0)};
  const SetUpTone after[] = {tone(102.5, 60.0), tone(100.5, 60.0)};
  const auto changes = tone_changes(before, after);
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_DOUBLE_EQ(changes[0].setup->tone.frequency_hz, 100.5);
  EXPECT_EQ(changes[1].match, ToneMatch::added);
}

TEST(ToneChange, TheSentenceNamesTheToneThatChangedMost) {
  const SetUpTone before[] = {tone(100.0, 60.0), tone(1500.0, 50.0)};
  const SetUpTone after[] = {tone(100.0, 52.0), tone(1500.0, 49.0)};
  EXPECT_NE(tone_sentence(tone_changes(before, after), "plug", "bare").find("the one at 100 Hz changed most"),
            std::string::npos);
}

TEST(ToneChange, NoChangeBeyondChanceIsSaidSo) {
  const SetUpTone before[] = {tone(100.0, 60.0)};
  const SetUpTone after[] = {tone(100.0, 60.02)};
  EXPECT_NE(tone_sentence(tone_changes(before, after), "plug", "bare").find("no tone heard with both changed"),
            std::string::npos);
  EXPECT_EQ(tone_sentence({}, "plug", "bare"), "");
}

}  // namespace
}  // namespace ringfall::report
