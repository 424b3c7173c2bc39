// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_change.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ringfall::compare {
namespace {

/// Two set-ups in three blocks of one shot each: 0, 1, 2 and 3, 4, 5.
Session three_blocks_each() {
  Session session;
  session.blocks.resize(6);
  for (auto& block : session.blocks) block.shots.resize(1);
  for (std::size_t k = 0; k < 6; ++k) session.blocks[k].setup = k < 3 ? "bare" : "plug";
  return session;
}

/// Heard in all three blocks of set-up 0 or 1, 0.1 dB and 2 % of the ring time apart.
SetUpTone tone(std::size_t setup, double frequency_hz, double level_db, double ring_time_s = 0.2) {
  SetUpTone made;
  made.tone.frequency_hz = frequency_hz;
  made.tone.level_db = level_db;
  made.tone.ring_time_s = ring_time_s;
  for (std::size_t shot = 0; shot < 3; ++shot) {
    const double off = static_cast<double>(shot) - 1.0;
    made.readings.push_back({3 * setup + shot, 0, level_db + 0.1 * off, ring_time_s * (1.0 + 0.02 * off)});
  }
  return made;
}

std::vector<ToneChange> changes_of(std::vector<SetUpTone> before, std::vector<SetUpTone> after) {
  return tone_changes(three_blocks_each(), {"bare", std::move(before), {}, 3}, {"plug", std::move(after), {}, 3});
}

TEST(ToneChange, PairsWithinThreePercentAreTheSame) {
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 1500.0, 50.0)}, {tone(1, 1510.0, 50.0), tone(1, 97.5, 55.0, 0.1)});
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].match, ToneMatch::same);
  EXPECT_DOUBLE_EQ(changes[0].setup->tone.frequency_hz, 97.5);
  // By hand: three values each, SD 0.1 dB, so the standard error is 0.1 sqrt(2/3) with 4 degrees of freedom; t quantile 2.776.
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

// 8 % is the limit: a tone 9 % away is another one.
TEST(ToneChange, NinePercentAwayIsAnotherTone) {
  const auto changes = changes_of({tone(0, 100.0, 60.0)}, {tone(1, 109.0, 60.0)});
  ASSERT_EQ(changes.size(), 2U);
  EXPECT_EQ(changes[0].match, ToneMatch::gone);
  EXPECT_EQ(changes[1].match, ToneMatch::added);
}

// Four questions are asked: two levels, two ring times. Welch by hand: 0.27 dB, standard error 0.1 sqrt(2/3), t = 3.307 with 4
// degrees of freedom, p = 0.030 (t table); after Holm (1979) four times that.
TEST(ToneChange, ALevelThatOnlyItsOwnPCarriesIsNotTheMostChanged) {
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 1500.0, 50.0)}, {tone(1, 100.0, 60.27), tone(1, 1500.0, 50.0)});
  EXPECT_NEAR(changes[0].level_db.value().p, 0.030, 0.0005);
  EXPECT_NEAR(changes[0].adjusted_p_level, 4.0 * changes[0].level_db->p, 1e-12);
  EXPECT_EQ(most_changed(changes), nullptr);
  EXPECT_EQ(largest_level_change(changes), &changes[0]);
}

// Two blocks each with the tone: 2 degrees of freedom. The ring time is seen in one block of the set-up only: one degree of freedom, which is
// joined with what is assumed of blocks (4), and nothing is told by that.
TEST(ToneChange, BlocksAreCountedByTheReadings) {
  Session session;
  session.blocks.resize(4);
  for (auto& block : session.blocks) block.shots.resize(2);
  for (const std::size_t k : {0U, 3U}) session.blocks[k].setup = "bare";
  for (const std::size_t k : {1U, 2U}) session.blocks[k].setup = "plug";
  const auto heard = [](std::size_t first, std::size_t second, double level_db, bool ring_in_both) {
    SetUpTone made;
    made.tone = {};
    made.tone.frequency_hz = 100.0;
    made.tone.level_db = level_db;
    made.tone.ring_time_s = 0.2;
    for (const std::size_t block : {first, second}) {
      for (std::size_t shot = 0; shot < 2; ++shot) {
        const double off = 0.1 * static_cast<double>(block) + 0.05 * static_cast<double>(shot);
        const bool ring = block == first || ring_in_both;
        made.readings.push_back({block, shot, level_db + off, ring ? std::optional(0.2 + off) : std::nullopt});
      }
    }
    return made;
  };
  const auto changes = tone_changes(session, {"bare", {heard(0, 3, 60.0, true)}, {}, 4}, {"plug", {heard(1, 2, 55.0, false)}, {}, 4});
  EXPECT_FALSE(changes[0].level_assumed);
  EXPECT_EQ(changes[0].level_db.value().df, 2.0);
  EXPECT_TRUE(changes[0].ring_time_assumed);
  EXPECT_EQ(changes[0].ring_time_s.value().df, 5.0);
  EXPECT_FALSE(changes[0].ring_time_told());
}

/// As tone(), but `shots` of the three hide it under `at_most_db`.
SetUpTone hidden_in(std::size_t shots, std::size_t setup, double frequency_hz, double level_db, double at_most_db) {
  auto made = tone(setup, frequency_hz, level_db);
  for (std::size_t shot = 0; shot < shots; ++shot) made.hidden.push_back({3 * setup + shot, 0, at_most_db});
  made.readings.erase(made.readings.begin(), made.readings.begin() + static_cast<std::ptrdiff_t>(shots));
  return made;
}

// 60 dB, and then under 40 dB in two shots of three: leaving these out would say 0 dB. At least (40 + 40 + 60.1) / 3 - 60 = -13.3 dB.
TEST(ToneChange, WhatHidesCountsWithTheMostThatMayHide) {
  const auto changes = changes_of({tone(0, 100.0, 60.0)}, {hidden_in(2, 1, 100.0, 60.0, 40.0)});
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_TRUE(changes[0].level_at_least);
  EXPECT_NEAR(changes[0].level_db.value().difference, (40.0 + 40.0 + 60.1) / 3.0 - 60.0, 1e-9);
  // Hidden in both: nothing bounds the change. Hidden where it seems stronger: neither.
  const auto both = changes_of({hidden_in(1, 0, 100.0, 60.0, 40.0)}, {hidden_in(2, 1, 100.0, 60.0, 40.0)});
  EXPECT_FALSE(both[0].level_db);
  EXPECT_TRUE(both[0].both_hide);
  const auto stronger = changes_of({tone(0, 100.0, 20.0)}, {hidden_in(2, 1, 100.0, 60.0, 40.0)});
  EXPECT_FALSE(stronger[0].level_db);
}

// Heard in all shots of one set-up, hidden in all of the other: it went if the shots would have let it through, else that is not told.
TEST(ToneChange, AToneIsGoneOnlyWithAP) {
  for (const double at_most_db : {45.0, 59.95}) {
    SetUpTones plug{"plug", {}, {}, 3};
    plug.silent = {hidden_in(3, 1, 100.0, 60.0, at_most_db)};
    const auto changes = tone_changes(three_blocks_each(), {"bare", {tone(0, 100.0, 60.0)}, {}, 3}, plug);
    ASSERT_EQ(changes.size(), 1U);
    EXPECT_EQ(changes[0].match, ToneMatch::gone);
    EXPECT_TRUE(changes[0].level_db);
    EXPECT_EQ(changes[0].level_told(), at_most_db < 50.0);
  }
}

// Without a difference of ring time to be had, what the pooled tones' ring times say does not count: -2 dB against -3 dB, not -2 dB
// less 10 lg 8 = 9 dB.
TEST(ToneChange, ARingTimeThatCannotBeHadDoesNotCount) {
  auto short_one = tone(1, 100.0, 58.0, 0.025);
  for (auto& reading : short_one.readings) reading.ring_time_s.reset();
  const auto changes = changes_of({tone(0, 100.0, 60.0), tone(0, 1500.0, 50.0)}, {short_one, tone(1, 1500.0, 47.0)});
  EXPECT_NEAR(changes[0].energy_db(), -2.0, 1e-9);
  ASSERT_NE(most_changed(changes), nullptr);
  EXPECT_DOUBLE_EQ(most_changed(changes)->frequency_hz(), 1500.0);
}

}  // namespace
}  // namespace ringfall::compare
