// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/buzz.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shot/ladder_shots.h"

namespace ringfall::shot::testing {
namespace {

std::vector<BuzzEvidence> evidence(const Scene& scene, int shots) {
  std::vector<BuzzEvidence> list;
  for (int seed = 1; seed <= shots; ++seed) {
    const auto sound = sound_of(scene, static_cast<std::uint64_t>(seed));
    list.push_back({buzz_of(sound, scene.rate_hz, kOnset_s * scene.rate_hz, scene.tail_end_s), {}});
  }
  return list;
}

TEST(Buzz, LooseLimbPartIsClaimedWithItsRate) {
  for (double rate : {60.0, 95.0, 180.0}) {
    Scene scene = scene_of(kAverageTones);
    scene.shot.buzz_rate_hz = rate;
    const auto claim = buzz_claimed(evidence(scene, 8));
    ASSERT_TRUE(claim) << rate;
    EXPECT_NEAR(claim->rate_hz, rate, 0.05 * rate);
    EXPECT_GE(claim->modulation_db, 11.0);
  }
}

TEST(Buzz, NoneIsClaimedWithout) {
  for (const auto& tones : {kDeadTones, kAverageTones, kRingingTones}) {
    const auto shots = evidence(scene_of(tones), 8);
    EXPECT_FALSE(buzz_claimed(shots));
    for (const auto& shot : shots) EXPECT_TRUE(shot.buzz);  // as measured all the same
  }
}

TEST(Buzz, RuleNeedsStrengthAndOneRate) {
  const auto shots = [](double db, std::vector<double> rates) {
    std::vector<BuzzEvidence> list;
    for (double rate : rates) list.push_back({Buzz{db, rate}, {}});
    return list;
  };
  EXPECT_TRUE(buzz_claimed(shots(11.0, {100, 101, 99, 104, 180})));
  EXPECT_FALSE(buzz_claimed(shots(10.9, {100, 101, 99, 104, 180})));
  EXPECT_FALSE(buzz_claimed(shots(15.0, {100, 101, 99, 140, 180})));
  EXPECT_FALSE(buzz_claimed(shots(15.0, {100, 101})));  // too few shots to say "the same"
  EXPECT_FALSE(buzz_claimed({}));
}

TEST(Buzz, TwoClosePingsBeatAndAreNoBuzz) {
  std::vector<BuzzEvidence> shots;
  for (int i = 0; i < 5; ++i)
    shots.push_back({Buzz{18.0, 100.0},
                     {{2000, 70, 0.3, 0, ToneFamily::ping}, {2101, 70, 0.3, 0, ToneFamily::ping}}});
  EXPECT_FALSE(buzz_claimed(shots));
  for (auto& shot : shots) shot.tones[1].frequency_hz = 2130.0;
  EXPECT_TRUE(buzz_claimed(shots));
}

TEST(Buzz, ShortTailOrLowRateIsNoAnswer) {
  const Scene scene = scene_of(kAverageTones);
  const auto sound = sound_of(scene, 1);
  EXPECT_FALSE(buzz_of(sound, 48000.0, kOnset_s * 48000.0, 0.11));
  EXPECT_TRUE(buzz_of(sound, 48000.0, kOnset_s * 48000.0, 0.13));
  EXPECT_FALSE(buzz_of(std::vector<double>(48000, 0.0), 48000.0, 1000.0, 0.3));
  EXPECT_FALSE(buzz_of({}, 48000.0, 0.0, 0.3));
}

}  // namespace
}  // namespace ringfall::shot::testing
