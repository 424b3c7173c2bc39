// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/impact_search.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

constexpr ImpactWindow kOpen{0.034, 1.7};

std::vector<ImpactCandidate> candidates_of(const SyntheticShot& shot, double rate_hz, std::uint64_t seed) {
  std::vector<double> wave(static_cast<std::size_t>(2.0 * rate_hz), 0.0);
  add_synthetic_shot(wave, rate_hz, 0.1, shot, seed);
  add_white_noise(wave, 45.0, seed + 100);
  const auto samples = to_full_scale(wave, 120.0);
  return impact_candidates(std::span(samples).subspan(static_cast<std::size_t>(0.1 * rate_hz)), rate_hz, kOpen);
}

/// Two close tones, loud and long: they beat, and lie over everything.
SyntheticShot ringing() {
  SyntheticShot shot;
  shot.tones = {{95.0, 84.0, 0.8}, {99.0, 84.0, 0.8}, {170.0, 82.0, 0.7}, {310.0, 78.0, 0.5}};
  return shot;
}

// The lags are those put there: 5 m at 60 m/s, 18 m at 60 m/s, 70 m at 55 m/s.
TEST(ImpactSearch, FindsTheImpactOverARingingBow) {
  for (const double lag_s : {0.090, 0.344, 1.468}) {
    for (const double rate_hz : {8000.0, 48000.0, 192000.0}) {
      int clear = 0;
      for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        auto shot = ringing();
        shot.impact_lag_s = lag_s;
        shot.impact_below_db = 12.0;
        const auto found = candidates_of(shot, rate_hz, seed);
        if (found.size() == 1 && std::abs(found[0].lag_s - lag_s) < 0.002) ++clear;
      }
      EXPECT_GE(clear, 9) << lag_s << " " << rate_hz;
    }
  }
}

// No impact: neither the beats nor the thump nor the floor make one.
TEST(ImpactSearch, NothingWhereNothingStruck) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    auto shot = ringing();
    shot.impact_lag_s = 0.0;
    EXPECT_TRUE(candidates_of(shot, 48000.0, seed).empty()) << seed;
  }
  EXPECT_TRUE(impact_candidates({}, 48000.0, kOpen).empty());
  EXPECT_TRUE(impact_candidates(std::vector<float>(96000, 0.0F), 48000.0, kOpen).empty());
}

ImpactCandidate at(double lag_s, double level_db) { return {lag_s, level_db, 12.0, false}; }

TEST(ImpactHistory, TheLagThatShotsAgreeOnComesFirst) {
  ImpactHistory history;
  for (int k = 0; k < 4; ++k) EXPECT_EQ(history.choose({at(0.344, -12.0)}, -25.0), 0U);
  // A louder sound elsewhere is not it; and where the usual one is missing nothing is taken.
  EXPECT_EQ(history.choose({at(0.200, -6.0), at(0.350, -14.0)}, -25.0), 1U);
  EXPECT_FALSE(history.choose({at(0.200, -6.0)}, -25.0).has_value());
  // Another archer, 10 dB fainter, has a lag of his own.
  EXPECT_EQ(history.choose({at(0.200, -6.0)}, -35.0), 0U);
}

// 18 m, then 10 m: the second shot from there sets the new lag, and so on the way back. One foreign sound does not.
TEST(ImpactHistory, TwoShotsInARowSetANewLag) {
  ImpactHistory history;
  for (int k = 0; k < 16; ++k) EXPECT_EQ(history.choose({at(0.344, -12.0)}, -25.0), 0U);
  EXPECT_FALSE(history.choose({at(0.187, -12.0)}, -25.0).has_value());
  EXPECT_EQ(history.choose({at(0.190, -12.0), at(0.500, -20.0)}, -25.0), 0U);
  for (int k = 0; k < 8; ++k) EXPECT_EQ(history.choose({at(0.187, -12.0), at(0.600 + 0.1 * k, -14.0)}, -25.0), 0U);
  EXPECT_FALSE(history.choose({at(0.344, -12.0)}, -25.0).has_value());
  EXPECT_EQ(history.choose({at(0.346, -12.0)}, -25.0), 0U);
  for (int k = 0; k < 4; ++k) EXPECT_EQ(history.choose({at(0.344, -12.0)}, -25.0), 0U);
  EXPECT_FALSE(history.choose({at(0.700, -12.0)}, -25.0).has_value());
  EXPECT_FALSE(history.choose({at(0.250, -12.0)}, -25.0).has_value());
  EXPECT_EQ(history.choose({at(0.344, -14.0), at(0.250, -6.0)}, -25.0), 0U);
}

TEST(ImpactHistory, WithoutHistoryTheLoudestClearRise) {
  EXPECT_EQ(ImpactHistory().choose({at(0.2, -20.0), at(0.344, -10.0)}, -25.0), 1U);
  EXPECT_FALSE(ImpactHistory().choose({{0.344, -10.0, 5.0, false}}, -25.0).has_value());  // 5 dB of rise is not clear
  EXPECT_FALSE(ImpactHistory().choose({}, -25.0).has_value());
}

}  // namespace
}  // namespace ringfall::shot
