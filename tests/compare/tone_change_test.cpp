// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_change.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ringfall::compare {
namespace {

/// Two set-ups in one block of three shots each.
Session two_blocks() {
  Session session;
  session.blocks.resize(2);
  for (auto& block : session.blocks) block.shots.resize(3);
  session.blocks[0].setup = "bare";
  session.blocks[1].setup = "plug";
  return session;
}

/// Heard in all three shots of its block, 0.1 dB and 2 % of the ring time apart.
SetUpTone tone(std::size_t block, double frequency_hz, double level_db, double ring_time_s = 0.2) {
  SetUpTone made;
  made.tone.frequency_hz = frequency_hz;
  made.tone.level_db = level_db;
  made.tone.ring_time_s = ring_time_s;
  for (std::size_t shot = 0; shot < 3; ++shot) {
    const double off = static_cast<double>(shot) - 1.0;
    made.readings.push_back({block, shot, level_db + 0.1 * off, ring_time_s * (1.0 + 0.02 * off)});
  }
  return made;
}

std::vector<ToneChange> changes_of(std::vector<SetUpTone> before, std::vector<SetUpTone> after) {
  return tone_changes(two_blocks(), {"bare", std::move(before), {}, 3}, {"plug", std::move(after), {}, 3}, stats::Unit::shot);
}

TEST(ToneChange, PairsWithinThreePercentAreTheSame) {
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 1500.0, 50.0)}, {tone(1, 1510.0, 50.0), tone(1, 97.5, 55.0, 0.1)});
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].match, ToneMatch::same);
  EXPECT_DOUBLE_EQ(changes[0].setup->tone.frequency_hz, 97.5);
  // By hand: three values each, SD 0.1 dB, so the standard error is 0.1 sqrt(2/3) and Welch's df 4; t quantile 2.776.
  EXPECT_NEAR(changes[0].level_db.value().difference, -5.0, 1e-9);
  EXPECT_NEAR(changes[0].level_db->interval.low, -5.0 - 2.776445 * 0.1 * std::sqrt(2.0 / 3.0), 1e-6);
  EXPECT_NEAR(changes[0].ring_time_s.value().difference, -0.1, 1e-9);
  // -5 dB and half the ring time, 10 lg 0.5 = -3.01 dB.
  EXPECT_NEAR(changes[0].energy_db(), -8.0103, 1e-4);
}

TEST(ToneChange, FurtherAwayIsPerhapsMovedAndFartherIsAnother) {
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 300.0, 50.0)}, {tone(1, 95.0, 60.0), tone(1, 340.0, 50.0)});
  ASSERT_EQ(changes.size(), 3U);
  EXPECT_EQ(changes[0].match, ToneMatch::perhaps_moved);
  EXPECT_EQ(changes[1].match, ToneMatch::gone);
  EXPECT_FALSE(changes[1].level_db);
  EXPECT_EQ(changes[2].match, ToneMatch::added);
}

TEST(ToneChange, TheNearestPairComesFirstAndEachToneOnce) {
  const auto changes = changes_of({tone(0, 100.0, 60.0)}, {tone(1, 102.5, 60.0), tone(1, 100.5, 60.0)});
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_DOUBLE_EQ(changes[0].setup->tone.frequency_hz, 100.5);
  EXPECT_EQ(changes[1].match, ToneMatch::added);
}

TEST(ToneChange, MostChangedNeedsMoreThanChance) {
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 1500.0, 50.0)}, {tone(1, 100.0, 52.0), tone(1, 1500.0, 49.0)});
  ASSERT_NE(most_changed(changes), nullptr);
  EXPECT_DOUBLE_EQ(most_changed(changes)->frequency_hz(), 100.0);
  const auto none = changes_of({tone(0, 100.0, 60.0)}, {tone(1, 100.0, 60.02)});
  EXPECT_EQ(most_changed(none), nullptr);
  EXPECT_EQ(most_changed({}), nullptr);
}

/// The level alone stays, the ring time halves: that is a change too.
TEST(ToneChange, ARingTimeAloneCounts) {
  const auto changes = changes_of({tone(0, 100.0, 60.0, 0.4)}, {tone(1, 100.0, 60.0, 0.2)});
  EXPECT_NE(most_changed(changes), nullptr);
}

TEST(ToneChange, AReadingWithoutRingTimeOfItsOwnCountsForTheLevelOnly) {
  auto weak = tone(1, 100.0, 55.0);
  for (auto& reading : weak.readings) reading.ring_time_s.reset();
  const auto changes = changes_of({tone(0, 100.0, 60.0)}, {weak});
  EXPECT_TRUE(changes[0].level_db);
  EXPECT_FALSE(changes[0].ring_time_s);
}

}  // namespace
}  // namespace ringfall::compare
