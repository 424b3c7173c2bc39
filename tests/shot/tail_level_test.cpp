// SPDX-License-Identifier: GPL-3.0-or-later
// The plain level of the tail's hum and ping bands against the closed form of a decaying tone, and where there is none.
#include "shot/tail_level.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "shot/ladder_shots.h"
#include "shot/measure.h"
#include "shot/numbers.h"

namespace ringfall::shot::testing {
namespace {

Clip clip_of(const std::vector<double>& sound, double rate_hz) {
  Clip clip;
  clip.samples = to_full_scale(sound, 120.0);
  clip.sample_rate_hz = rate_hz;
  clip.onset_sample = static_cast<std::int64_t>(std::floor(kOnset_s * rate_hz));
  clip.onset_fraction = kOnset_s * rate_hz - std::floor(kOnset_s * rate_hz);
  return clip;
}

TailLevels levels_of(const Scene& scene, std::uint64_t seed) {
  const PressureClip pressure(clip_of(sound_of(scene, seed), scene.rate_hz), Scale{120.0});
  return tail_levels(pressure, ShotSegment(pressure, scene.tail_end_s), MeasureSettings{});
}

/// Nothing but one tone and the floor.
Scene tone_alone(double frequency_hz, double level_db, double ring_s) {
  Scene scene = scene_of({{frequency_hz, level_db, ring_s}});
  scene.shot.thump_db = -100.0;
  scene.shot.edge_peak_db = 60.0;
  scene.shot.impact_lag_s = 0.0;
  scene.shot.release_lag_s = 0.0;
  return scene;
}

/// Mean of 10^(L/10) e^(-kt) from begin to end, k = 6 ln 10 / ring time: by hand.
double mean_level_db(double level_db, double ring_s, double begin_s, double end_s) {
  const double k = 6.0 * std::log(10.0) / ring_s;
  return level_db + 10.0 * std::log10((std::exp(-k * begin_s) - std::exp(-k * end_s)) / (k * (end_s - begin_s)));
}

TEST(TailLevel, IsTheMeanSquareOfADyingTone) {
  const MeasureSettings settings;
  for (double rate_hz : {44100.0, 48000.0, 96000.0}) {
    Scene hum = tone_alone(150.0, 80.0, 0.25);
    Scene ping = tone_alone(2000.0, 75.0, 0.15);
    hum.rate_hz = ping.rate_hz = rate_hz;
    // 0.3 dB: the tone's phase against the window's ends and the band's slopes (0.2 dB a quarter band inside an edge).
    EXPECT_NEAR(levels_of(hum, 1).hum->level_db,
                mean_level_db(80.0, 0.25, settings.hum_level_start_s, settings.tail_level_end_s), 0.3);
    EXPECT_NEAR(levels_of(ping, 1).ping->level_db,
                mean_level_db(75.0, 0.15, settings.ping_level_start_s, settings.tail_level_end_s), 0.3);
  }
}

TEST(TailLevel, TheFloorIsTakenOff) {
  const MeasureSettings settings;
  Scene scene = tone_alone(150.0, 70.0, 0.25);
  const double quiet_db = mean_level_db(70.0, 0.25, settings.hum_level_start_s, settings.tail_level_end_s);
  scene.floor_db = 10.0 * std::log10(24000.0 / 340.0) + quiet_db;  // white to 24 kHz: as strong as the tone in 60-400 Hz
  double mean_db = 0.0;
  for (std::uint64_t seed = 1; seed <= 20; ++seed) mean_db += levels_of(scene, seed).hum->level_db / 20.0;
  EXPECT_NEAR(mean_db, quiet_db, 0.8);  // unsubtracted it would be 3 dB more
}

TEST(TailLevel, SilenceHoldsTheMostItCanBe) {
  Scene scene = tone_alone(150.0, -100.0, 0.25);
  const double floor_hum_db = scene.floor_db - 10.0 * std::log10(24000.0 / 340.0);
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const TailLevels levels = levels_of(scene, seed);
    ASSERT_TRUE(levels.hum && levels.ping);
    EXPECT_TRUE(levels.hum->at_floor) << seed;
    EXPECT_TRUE(levels.ping->at_floor) << seed;
    EXPECT_LT(levels.hum->level_db, floor_hum_db) << seed;
  }
}

TEST(TailLevel, AShorterTailHasNone) {
  Scene scene = scene_of(kAverageTones);
  scene.tail_end_s = 0.120;
  EXPECT_FALSE(levels_of(scene, 1).hum);
  EXPECT_FALSE(levels_of(scene, 1).ping);
  scene.tail_end_s = 0.130;
  EXPECT_TRUE(levels_of(scene, 1).hum);
  // 8 kHz sampling ends below the ping band's upper edge.
  scene.rate_hz = 8000.0;
  EXPECT_TRUE(levels_of(scene, 1).hum);
  EXPECT_FALSE(levels_of(scene, 1).ping);
}

TEST(TailLevel, StaysWhereNoToneCanBeToldAndGoesWithAFault) {
  Shot shot;
  shot.hum = 3.0;
  shot.hum_at_most = 4.0;
  shot.hum_tail_db = 50.0;
  shot.ping_tail_db = 40.0;
  void_numbers(shot, {{"tail_masked", Severity::void_, {Quantity::hum}, "may hide"}});
  EXPECT_FALSE(shot.hum);
  EXPECT_EQ(shot.hum_at_most, 4.0);
  EXPECT_EQ(shot.hum_tail_db, 50.0);
  void_numbers(shot, {{"gain_not_constant", Severity::void_, {Quantity::hum}, "gain moves"}});
  EXPECT_FALSE(shot.hum_at_most);
  EXPECT_FALSE(shot.hum_tail_db);
  EXPECT_EQ(shot.ping_tail_db, 40.0);
}

TEST(TailLevel, IsANumberOfEveryShotAndPrintedOnItsScale) {
  const Clip clip = clip_of(sound_of(scene_of(kAverageTones), 3), 48000.0);
  const Shot absolute = measure_shot(clip, Scale{120.0}, MeasureSettings{}).shot;
  const Shot relative = measure_shot(clip, Scale{}, MeasureSettings{}).shot;
  for (const char* id : {"hum_tail_db", "ping_tail_db"}) {
    const Number* number = find_number(id);
    ASSERT_NE(number, nullptr);
    EXPECT_FALSE(number->bound);
    ASSERT_TRUE(number->of(absolute) && number->of(relative)) << id;
    EXPECT_NEAR(*number->of(absolute) - *number->of(relative), 120.0, 1e-9) << id;
  }
  for (const char* id : {"hum_at_most", "ping_at_most"}) {
    ASSERT_NE(find_number(id), nullptr);
    EXPECT_TRUE(find_number(id)->bound);
  }
}

}  // namespace
}  // namespace ringfall::shot::testing
