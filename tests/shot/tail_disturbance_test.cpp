// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tail_disturbance.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "shot/measure.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

// Every sound here is synthetic; what is foreign and when it begins is so by construction.

constexpr double kFullScale_db = 120.0;

std::vector<double> lone_shot_pa(std::uint64_t seed) {
  std::vector<double> wave(96000, 0.0);
  add_white_noise(wave, 32.0, seed + 40);
  SyntheticShot shot;
  shot.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
  shot.impact_lag_s = 0.0;
  add_synthetic_shot(wave, 48000.0, 0.8, shot, seed);
  return wave;
}

Clip lone_clip(const std::vector<double>& wave) {
  Clip clip;
  clip.samples = to_full_scale(wave, kFullScale_db);
  clip.sample_rate_hz = 48000.0;
  clip.onset_sample = 38400;
  return clip;
}

TEST(TailDisturbance, AnotherShotInTheTailEndsItAndIsSaid) {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    auto wave = lone_shot_pa(seed);
    const auto alone = measure_shot(lone_clip(wave), {kFullScale_db}, {}).shot;
    EXPECT_FALSE(has_finding(alone.findings, "tail_disturbed"));
    SyntheticShot other;
    other.edge_peak_db = 96.0;
    other.thump_db = 88.0;
    other.release_lag_s = 0.0;
    other.impact_lag_s = 0.0;
    add_synthetic_shot(wave, 48000.0, 0.8 + 0.200, other, seed + 9);
    const auto both = measure_shot(lone_clip(wave), {kFullScale_db}, {}).shot;
    EXPECT_TRUE(has_finding(both.findings, "tail_disturbed"));
    // The end lies before the other's edge, by two frames and the guard at most.
    EXPECT_LT(*both.tail_end_s - both.onset_s, 0.2005);
    EXPECT_GT(*both.tail_end_s - both.onset_s, 0.150);
    // What is before it is measured as without it.
    ASSERT_TRUE(both.ring_down.early_s && alone.ring_down.early_s);
    EXPECT_NEAR(*both.ring_down.early_s / *alone.ring_down.early_s, 1.0, 0.05);
    if (both.ring_down.late_s) {
      EXPECT_NEAR(*both.ring_down.late_s / *alone.ring_down.late_s, 1.0, 0.2);
    }
    EXPECT_NEAR(*both.levels.exposure_db, *alone.levels.exposure_db, 0.1);
  }
}

// By hand: 400 and 412 Hz, 6 dB apart, swing by 20 lg (1.5 / 0.5) = 9.5 dB twelve times a second; both lie in one octave.
TEST(TailDisturbance, TwoModesThatBeatAreTheBows) {
  auto wave = lone_shot_pa(3);
  for (std::size_t n = 38400; n < wave.size(); ++n) {
    const double t = static_cast<double>(n - 38400) / 48000.0;
    const double turn = 2.0 * std::numbers::pi * t;
    wave[n] += 0.4 * std::exp(-t / 0.08) * (std::sin(400.0 * turn) + 0.5 * std::sin(412.0 * turn));
  }
  EXPECT_FALSE(has_finding(measure_shot(lone_clip(wave), {kFullScale_db}, {}).shot.findings, "tail_disturbed"));
}

TEST(TailDisturbance, ABuzzIsTheBows) {
  for (const double rate_hz : {45.0, 95.0}) {
    std::vector<double> wave(96000, 0.0);
    add_white_noise(wave, 32.0, 5);
    SyntheticShot shot;
    shot.tones = {{95.0, 80.0, 0.30}};
    shot.impact_lag_s = 0.0;
    shot.buzz_rate_hz = rate_hz;
    shot.buzz_db = 82.0;
    add_synthetic_shot(wave, 48000.0, 0.8, shot, 6);
    const auto heard = measure_shot(lone_clip(wave), {kFullScale_db}, {}).shot;
    EXPECT_FALSE(has_finding(heard.findings, "tail_disturbed")) << rate_hz;
  }
}

}  // namespace
}  // namespace ringfall::shot
