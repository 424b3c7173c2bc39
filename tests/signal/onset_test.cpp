// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/onset.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace ringfall::signal {
namespace {

/// Noise of unit strength from `at_s` on, with a linear rise, dying away; over a floor.
std::vector<float> burst(double rate_hz, double at_s, double rise_s, double floor, std::uint64_t seed) {
  std::mt19937_64 generator(seed);
  std::normal_distribution<double> normal;
  std::vector<float> x(static_cast<std::size_t>(0.06 * rate_hz));
  for (std::size_t n = 0; n < x.size(); ++n) {
    const double t = static_cast<double>(n) / rate_hz - at_s;
    const double envelope = t < 0.0 ? 0.0 : std::min(1.0, rise_s > 0.0 ? t / rise_s : 1.0) * std::exp(-t / 0.003);
    x[n] = static_cast<float>(envelope * normal(generator) + floor * normal(generator));
  }
  return x;
}

// The true start is where the burst was put. A start at once is found to the sample: the sample the sound begins with.
TEST(Onset, StepIsFoundToTheSample) {
  for (const double rate_hz : {8000.0, 44100.0, 192000.0}) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
      const double at = std::round(0.03 * rate_hz);
      const auto x = burst(rate_hz, at / rate_hz, 0.0, 0.001, seed);
      const auto rise = steepest_rise(x, rate_hz, x.size() / 4, x.size() * 3 / 4, 1e-12);
      EXPECT_NEAR(rise.position, at, 1.0) << rate_hz << " " << seed;
      EXPECT_GT(rise.rise_db, 40.0);
    }
  }
}

// 20 dB of floor under the burst and a rise that takes 1 ms: within 0.3 ms of the middle of what can be called its start.
TEST(Onset, SlowRiseInNoise) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    const auto x = burst(48000.0, 0.03, 0.001, 0.1, seed);
    const auto rise = steepest_rise(x, 48000.0, x.size() / 4, x.size() * 3 / 4, 1e-12);
    EXPECT_NEAR(rise.position / 48000.0, 0.0303, 0.0005) << seed;
  }
}

// A click 30 dB fainter 10 ms before, out of silence: its own rise is steeper, yet it is not the edge.
TEST(Onset, FaintClickBeforeIsNotTheEdge) {
  auto x = burst(48000.0, 0.03, 0.0, 0.0, 5);
  const auto click = burst(48000.0, 0.02, 0.0, 0.0, 6);
  for (std::size_t n = 0; n < x.size(); ++n) x[n] += 0.0316F * click[n];
  EXPECT_NEAR(steepest_rise(x, 48000.0, 480, 2400, 1e-12).position, 1440.0, 2.0);
}

TEST(Onset, EdgeAtTheFirstSampleAndNothingAtAll) {
  const auto x = burst(48000.0, 0.0, 0.0, 0.0, 7);
  EXPECT_NEAR(steepest_rise(x, 48000.0, 0, 500, 1e-12).position, 0.0, 1.0);
  const std::vector<float> silence(1000, 0.0F);
  EXPECT_NEAR(steepest_rise(silence, 48000.0, 0, 1000, 1e-12).rise_db, 0.0, 1e-9);
  EXPECT_NEAR(steepest_rise({}, 48000.0, 0, 0, 1e-12).rise_db, 0.0, 1e-9);
}

}  // namespace
}  // namespace ringfall::signal
