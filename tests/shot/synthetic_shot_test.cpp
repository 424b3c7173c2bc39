// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/synthetic_shot.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

#include "base/units.h"

namespace ringfall::shot {
namespace {

double rms(std::span<const double> x) {
  double sum = 0.0;
  for (const double value : x) sum += value * value;
  return std::sqrt(sum / static_cast<double>(x.size()));
}

double peak(std::span<const double> x) {
  double highest = 0.0;
  for (const double value : x) highest = std::max(highest, std::abs(value));
  return highest;
}

SyntheticShot bare() {
  SyntheticShot shot;
  shot.edge_peak_db = shot.thump_db = -100.0;
  shot.release_lag_s = 0.0;
  shot.impact_lag_s = 0.0;
  return shot;
}

// Level and decay by definition: rms 94 dB re 20 uPa = 1.0024 Pa (20e-6 * 10^(94/20)) at the edge, 60 dB in 0.5 s.
TEST(SyntheticShot, ToneHasItsLevelStartAndRingTime) {
  std::vector<double> wave(48000, 0.0);
  auto shot = bare();
  shot.tones = {{1000.0, 94.0, 0.5}};
  const double onset_s = 0.1 + 0.3 / 48000.0;  // between two samples
  add_synthetic_shot(wave, 48000.0, onset_s, shot, 1);
  EXPECT_LT(peak(std::span(wave).first(4801)), 1e-9);
  EXPECT_GT(std::abs(wave[4801]) + std::abs(wave[4802]), 1e-3);
  // Mean square over whole periods from the edge: A^2/2 (1 - e^-2kT)/(2kT) with k = ln 1000 / 0.5 s.
  const double decay = std::log(1000.0) / 0.5;
  for (const double from_s : {0.0, 0.25}) {
    const double expected_pa = 20e-6 * std::pow(10.0, 94.0 / 20.0) * std::exp(-decay * from_s) *
                               std::sqrt((1.0 - std::exp(-2.0 * decay * 0.02)) / (2.0 * decay * 0.02));
    const auto part = std::span(wave).subspan(static_cast<std::size_t>(4801.0 + 48000.0 * from_s), 960);
    EXPECT_NEAR(amplitude_to_db(rms(part) / expected_pa), 0.0, 0.1);
  }
}

// The edge's peak is what was asked for: 108 dB re 20 uPa = 5.02 Pa; nothing comes before it; it rises within a millisecond.
TEST(SyntheticShot, EdgePeakAndRise) {
  std::vector<double> wave(48000, 0.0);
  auto shot = bare();
  shot.edge_peak_db = 108.0;
  add_synthetic_shot(wave, 48000.0, 0.5, shot, 2);
  EXPECT_NEAR(peak(wave), 20e-6 * std::pow(10.0, 108.0 / 20.0), 0.01);
  EXPECT_EQ(peak(std::span(wave).first(24000)), 0.0);
  EXPECT_GT(rms(std::span(wave).subspan(24024, 24)), 0.5 * rms(std::span(wave).subspan(24048, 24)));
  EXPECT_LT(peak(std::span(wave).subspan(24000 + 960)), 0.01 * peak(wave));  // gone after 20 ms
}

TEST(SyntheticShot, PartsComeWhenTheyShould) {
  std::vector<double> wave(96000, 0.0);
  auto shot = bare();
  shot.edge_peak_db = 100.0;
  shot.clicker_lag_s = -0.2;
  shot.clicker_below_db = 20.0;
  shot.release_lag_s = -0.015;
  shot.impact_lag_s = 0.4;
  shot.impact_below_db = 10.0;
  add_synthetic_shot(wave, 48000.0, 1.0, shot, 3);
  const auto peak_db = [&](double from_s, double to_s) {
    const auto from = static_cast<std::size_t>(from_s * 48000.0);
    return amplitude_to_db(peak(std::span(wave).subspan(from, static_cast<std::size_t>(to_s * 48000.0) - from)) / 20e-6);
  };
  EXPECT_NEAR(peak_db(0.799, 0.81), 80.0, 0.1);
  EXPECT_NEAR(peak_db(0.984, 0.994), 70.0, 6.0);  // a third of its peak as rms
  EXPECT_NEAR(peak_db(1.399, 1.5), 90.0, 4.0);    // thud and slap together
  EXPECT_EQ(peak(std::span(wave).first(38400)), 0.0);
}

TEST(SyntheticShot, SeedsDecide) {
  std::vector<double> one(48000, 0.0), same(48000, 0.0), other(48000, 0.0);
  add_synthetic_shot(one, 48000.0, 0.1, {}, 4);
  add_synthetic_shot(same, 48000.0, 0.1, {}, 4);
  add_synthetic_shot(other, 48000.0, 0.1, {}, 5);
  EXPECT_EQ(one, same);
  EXPECT_NE(one, other);
}

// 54 dB re 20 uPa = 0.01002 Pa; 48000 values give the rms to 0.3 % (one standard deviation).
TEST(SyntheticShot, WhiteNoiseLevelAndFullScale) {
  std::vector<double> wave(48000, 0.0);
  add_white_noise(wave, 54.0, 6);
  EXPECT_NEAR(rms(wave), 0.010024, 0.00015);
  EXPECT_FLOAT_EQ(to_full_scale(std::vector<double>{20.0, -40.0}, 120.0)[1], -2.0F);  // 120 dB = 20 Pa
}

// Cut at either end of the wave, or beside it: nothing to break.
TEST(SyntheticShot, EndsOfTheWave) {
  std::vector<double> wave(4800, 0.0);
  add_synthetic_shot(wave, 48000.0, -0.01, {}, 7);
  add_synthetic_shot(wave, 48000.0, 0.099, {}, 7);
  add_synthetic_shot(wave, 48000.0, 5.0, {}, 7);
  add_synthetic_shot({}, 48000.0, 0.0, {}, 7);
  EXPECT_GT(peak(wave), 0.0);
  EXPECT_TRUE(std::ranges::all_of(wave, [](double value) { return std::isfinite(value); }));
}

}  // namespace
}  // namespace ringfall::shot
