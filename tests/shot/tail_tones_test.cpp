// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tail_tones.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "shot/ladder_shots.h"
#include "shot/tone_search_gates.h"
#include "shot/tone_search_peaks.h"

namespace ringfall::shot::testing {
namespace {

const MeasureSettings kSettings;

/// Every true tone is heard with its frequency, level and ring time, and nothing else is.
void expect_all(const Scene& scene, std::uint64_t seed, double level_db = 1.0, double ring_share = 0.10) {
  const std::vector<Tone> found = find_tones(tail_of(scene, seed), kSettings).tones;
  EXPECT_EQ(found.size(), scene.shot.tones.size()) << "seed " << seed;
  for (const ToneFamily family : {ToneFamily::hum, ToneFamily::mid, ToneFamily::ping})
    for (const Tone& truth : true_tones(scene, family)) {
      const Tone* tone = nearest(found, truth.frequency_hz);
      ASSERT_TRUE(tone) << truth.frequency_hz << " Hz, seed " << seed;
      EXPECT_EQ(tone->family, family);
      EXPECT_NEAR(tone->level_db, truth.level_db, level_db) << truth.frequency_hz << " Hz, seed " << seed;
      EXPECT_NEAR(tone->ring_time_s, truth.ring_time_s, ring_share * truth.ring_time_s) << truth.frequency_hz;
      // zeta = sigma / |s|; for these ring times 1.10 / (f T) (handbook relation T60 = 1.10 / (zeta f))
      EXPECT_NEAR(tone->damping_ratio, 1.0995 / (tone->frequency_hz * tone->ring_time_s), 2e-3 * tone->damping_ratio);
    }
}

TEST(TailTones, RingingBowIsDescribedToneByTone) {
  for (std::uint64_t seed = 1; seed <= 6; ++seed) expect_all(scene_of(kRingingTones), seed);
}

TEST(TailTones, AllRates) {
  for (double rate : {16000.0, 44100.0, 96000.0, 192000.0}) {
    Scene scene = scene_of(kRingingTones);
    scene.rate_hz = rate;
    expect_all(scene, 3);
  }
  Scene scene = scene_of(kRingingTones);
  scene.rate_hz = 8000.0;
  scene.shot.tones.pop_back();  // 4.1 kHz is beyond this rate
  expect_all(scene, 3);
}

TEST(TailTones, HardCases) {
  expect_all(scene_of({{180, 80, 0.5}, {188, 78, 0.5}}), 1);     // two modes 8 Hz apart
  expect_all(scene_of({{2000, 75, 0.4}, {2008, 73, 0.4}}), 1);
  expect_all(scene_of({{62, 80, 0.4}, {398, 80, 0.4}}), 2);      // the corners of the hum band
  expect_all(scene_of({{140, 76, 2.0}}), 1);                     // outlasts the tail by far
  expect_all(scene_of({{200, 97, 0.3}}), 1);                     // 3 dB below the thump
  expect_all(scene_of({{3000, 90, 0.5}}), 1);                    // strong: no ghosts in its skirts
  // Fast and strong with slow and weak beside it: the fast one is followed back from 15 ms on, at 750 dB/s.
  expect_all(scene_of({{1000, 95, 0.08}, {1040, 70, 0.5}}), 1, 2.5, 0.15);
  expect_all(scene_of({{796, 75, 0.3}, {3000, 75, 0.3}}), 1);    // mid ends where ping begins
}

TEST(TailTones, SilenceAndNoiseHaveNone) {
  const std::vector<double> silence(76800, 0.0);
  EXPECT_TRUE(find_tones(cut_tail(silence, 48000.0, 38400.0, 0.334, kSettings), kSettings).tones.empty());
  Scene noise;
  for (std::uint64_t seed = 1; seed <= 10; ++seed)
    EXPECT_TRUE(find_tones(tail_of(noise, seed), kSettings).tones.empty()) << seed;
}

TEST(TailTones, SteadyHumIsNotCounted) {
  for (double mains : {50.0, 100.0, 150.0}) {
    Scene scene;
    scene.steady_hz = mains;
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
      const TailTones tail = find_tones(tail_of(scene, seed), kSettings);
      EXPECT_TRUE(tail.tones.empty()) << mains;
      ASSERT_EQ(tail.steady_hz.size(), 1u) << mains;
      EXPECT_NEAR(tail.steady_hz.front(), mains, 0.5);
    }
  }
  // A bow's tone beside it is heard all the same.
  Scene scene = scene_of(kRingingTones);
  scene.steady_hz = 50.0;
  scene.steady_db = 50.0;
  expect_all(scene, 1);
}

TEST(TailTones, RisingOrUndampedIsNoRing) {
  // No floor before the shot to compare with, and a tone that does not die.
  Scene scene;
  scene.shot.tones = {{1200, 70, 200.0}};
  EXPECT_TRUE(find_tones(tail_of(scene, 1), kSettings).tones.empty());
}

TEST(TailTones, GlidingStringIsOneToneAHarmonic) {
  // A string that starts 10 % high and settles with a time constant of 40 ms: harmonics of 110 Hz.
  Scene scene;
  std::vector<double> sound = sound_of(scene, 5);
  const double rate = scene.rate_hz;
  for (int h = 1; h <= 3; ++h)
    for (auto n = static_cast<std::size_t>(kOnset_s * rate) + 1; n < sound.size(); ++n) {
      const double t = static_cast<double>(n) / rate - kOnset_s;
      const double phase = 2.0 * std::numbers::pi * 110.0 * h * (t + 0.1 * 0.04 * (1.0 - std::exp(-t / 0.04)));
      sound[n] += 20e-6 * std::numbers::sqrt2 * std::pow(10.0, (85.0 - 3.0 * h) / 20.0) *
                  std::exp(-3.0 * std::numbers::ln10 * t / (0.45 - 0.06 * h)) * std::cos(phase + h);
    }
  const auto found = find_tones(cut_tail(sound, rate, kOnset_s * rate, 0.334, kSettings), kSettings).tones;
  EXPECT_EQ(found.size(), 3u);
  for (double f : {110.0, 220.0, 330.0}) EXPECT_TRUE(nearest(found, f)) << f;
}

TEST(TailTones, ShortOrCutClips) {
  const std::vector<double> sound = sound_of(scene_of(kRingingTones), 1);
  const double rate = 48000.0, edge = kOnset_s * rate;
  for (double end : {0.0, 0.01, 0.02, 0.06, 0.1}) {
    const TailTones tail = find_tones(cut_tail(sound, rate, edge, end, kSettings), kSettings);
    EXPECT_FALSE(tail.faintest_hum_db) << end;
  }
  // Nothing before the edge: no steady tones, the rest as ever.
  const auto from_edge = std::span(sound).subspan(static_cast<std::size_t>(edge));
  const double cut_edge = edge - std::floor(edge);
  EXPECT_EQ(find_tones(cut_tail(from_edge, rate, cut_edge, 0.334, kSettings), kSettings).tones.size(), 6u);
}

TEST(TailTones, FaintestToneIsWhatTheFloorAllows) {
  Scene quiet;
  quiet.shot.thump_db = 40.0;  // its skirts reach into the ping band
  Scene noisy = quiet;
  noisy.floor_db = 55.0;
  // White floor 20 dB up: the faintest ping goes up by as much.
  const double before = *find_tones(tail_of(quiet, 1), kSettings).faintest_ping_db;
  const double after = *find_tones(tail_of(noisy, 1), kSettings).faintest_ping_db;
  EXPECT_NEAR(after - before, 20.0, 1.0);
}

TEST(TailTones, PoolingSteadiesAWeakPing) {
  // A ping at the limit of a single shot's search comes and goes; read at the pooled frequency it stays.
  Scene scene = scene_of({{1450, 51, 0.25}});
  scene.floor_db = 52.0;
  scene.shot.thump_db = 80.0;  // so that the floor, not the thump's skirts, is the limit
  std::vector<TailSound> shots;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) shots.push_back(tail_of(scene, seed));
  const TailTones pooled = find_tones(shots, kSettings);
  ASSERT_EQ(pooled.tones.size(), 1u);
  EXPECT_NEAR(pooled.tones[0].frequency_hz, 1450.0, 3.0);
  EXPECT_NEAR(pooled.tones[0].level_db, 51.0 - 60.0 * 0.015 / 0.25, 2.0);
  const auto spread = [](const std::vector<double>& v) {
    double mean = 0.0, square = 0.0;
    for (double x : v) mean += x / static_cast<double>(v.size());
    for (double x : v) square += (x - mean) * (x - mean) / static_cast<double>(v.size() - 1);
    return std::sqrt(square);
  };
  std::vector<double> alone, together;
  for (const TailSound& shot : shots) {
    const auto own = find_tones(shot, kSettings).tones;
    alone.push_back(score_of(ring_amount(own, ToneFamily::ping, kSettings)));
    const auto read = read_tones(shot, pooled.tones, kSettings);
    together.push_back(score_of(ring_amount(read, ToneFamily::ping, kSettings)));
  }
  RecordProperty("sd_alone", std::to_string(spread(alone)));
  RecordProperty("sd_pooled", std::to_string(spread(together)));
  EXPECT_LT(spread(together), 0.5 * spread(alone));
}

TEST(TailTones, PoolingInventsNothing) {
  Scene scene;
  std::vector<TailSound> shots;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) shots.push_back(tail_of(scene, seed));
  EXPECT_TRUE(find_tones(shots, kSettings).tones.empty());
  EXPECT_TRUE(read_tones(shots[0], {}, kSettings).empty());
}

TEST(TailTones, GateGainIsTheDecayUndone) {
  // A window reads a steady tone as it is, and a decaying one by at least its level at the gate's end.
  const Gate gate{0.03, 0.1};
  EXPECT_NEAR(gate_gain(gate, 0.0, 0.0), 1.0, 1e-12);
  EXPECT_LT(gate_gain(gate, 20.0, 0.03), 1.0);
  EXPECT_GT(gate_gain(gate, 20.0, 0.03), std::exp(-2.0 * 20.0 * 0.1));
  const Gate later{0.08, 0.1};
  EXPECT_NEAR(gate_gain(later, 20.0, 0.0) / gate_gain(gate, 20.0, 0.0), std::exp(-2.0 * 20.0 * 0.05), 1e-9);
  EXPECT_NEAR(*decay_between(gate, later, std::exp(-2.0 * 20.0 * 0.05)), 20.0, 0.01);
  EXPECT_FALSE(decay_between(gate, later, 1.1));
}

TEST(TailTones, LinesStandOutOfBothSides) {
  // A step in the noise is no line; a line on the step's low side is none unless it beats the high side.
  std::vector<double> power(400, 1.0);
  for (std::size_t k = 0; k < 200; ++k) power[k] = 100.0;
  power[230] = 60.0;
  PeakRules rules;
  rules.low_hz = 10.0, rules.high_hz = 390.0, rules.noise_low_hz = 0.0, rules.noise_high_hz = 400.0;
  rules.guard_hz = 5.0, rules.side_hz = 40.0, rules.least_excess_db = 14.0;
  EXPECT_TRUE(find_peaks(power, 1.0, rules).empty());
  power[320] = 60.0;
  ASSERT_EQ(find_peaks(power, 1.0, rules).size(), 1u);
  EXPECT_NEAR(find_peaks(power, 1.0, rules)[0].excess_db, 10.0 * std::log10(60.0), 0.1);
}

}  // namespace
}  // namespace ringfall::shot::testing
