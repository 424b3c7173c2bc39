// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/resample.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/failure.h"

namespace ringfall::signal {
namespace {

std::vector<double> sine(double frequency_hz, double rate_hz, std::size_t size) {
  std::vector<double> x(size);
  for (std::size_t n = 0; n < size; ++n)
    x[n] = std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / rate_hz);
  return x;
}

/// Largest difference outside the first and last 10 ms.
double worst(const std::vector<double>& a, const std::vector<double>& b, double rate_hz) {
  const auto edge = static_cast<std::size_t>(0.010 * rate_hz);
  double most = 0.0;
  for (std::size_t n = edge; n + edge < std::min(a.size(), b.size()); ++n) most = std::max(most, std::abs(a[n] - b[n]));
  return most;
}

TEST(Resample, EqualRatesGiveTheSameSamples) {
  const std::vector<double> x = sine(440.0, 48000.0, 100);
  EXPECT_EQ(resample(x, 48000.0, 48000.0), x);
}

// A sine is known at every rate: delay, gain and images at once.
TEST(Resample, SineKeepsItsTimeAndItsHeight) {
  const double rates_hz[][2] = {{44100, 48000}, {96000, 48000}, {16000, 48000}, {48000, 44100}, {192000, 48000}};
  for (const auto& [from_hz, to_hz] : rates_hz) {
    const auto size = static_cast<std::size_t>(from_hz / 10.0);
    for (const double frequency_hz : {100.0, 1000.0, 0.22 * std::min(from_hz, to_hz)}) {
      const std::vector<double> out = resample(sine(frequency_hz, from_hz, size), from_hz, to_hz);
      const std::vector<double> exact = sine(frequency_hz, to_hz, out.size());
      EXPECT_LT(worst(out, exact, to_hz), 1e-6) << from_hz << ' ' << to_hz << ' ' << frequency_hz;
    }
    // 0.9 of half the lower rate: within 0.01 dB.
    const double edge_hz = 0.45 * std::min(from_hz, to_hz);
    const std::vector<double> out = resample(sine(edge_hz, from_hz, size), from_hz, to_hz);
    EXPECT_LT(worst(out, sine(edge_hz, to_hz, out.size()), to_hz), 0.00115) << from_hz << ' ' << to_hz;
  }
}

TEST(Resample, WhatTheNewRateCannotHoldIsGone) {
  const std::vector<double> out = resample(sine(10000.0, 48000.0, 9600), 48000.0, 16000.0);
  EXPECT_LT(worst(out, std::vector<double>(out.size(), 0.0), 16000.0), 1e-6);
}

TEST(Resample, LengthIsRounded) {
  EXPECT_EQ(resample(std::vector<double>(44100, 0.0), 44100, 48000).size(), 48000u);
  EXPECT_EQ(resample(std::vector<double>(147, 0.0), 44100, 48000).size(), 160u);
  EXPECT_EQ(resample(std::vector<double>(100, 0.0), 44100, 48000).size(), 109u);  // 108.84
  EXPECT_EQ(resample(std::vector<double>(101, 0.0), 96000, 48000).size(), 51u);   // 50.5
  EXPECT_EQ(resample(std::vector<double>(1, 0.5), 192000, 48000).size(), 1u);
  EXPECT_TRUE(resample({}, 44100, 48000).empty());
}

// An impulse keeps its place: sample 441 at 44.1 kHz is 10 ms, sample 480 at 48 kHz.
TEST(Resample, ImpulseKeepsItsPlace) {
  std::vector<double> x(882, 0.0);
  x[441] = 1.0;
  const std::vector<double> out = resample(x, 44100.0, 48000.0);
  EXPECT_EQ(std::max_element(out.begin(), out.end()) - out.begin(), 480);
  EXPECT_NEAR(out[479], out[481], 1e-6);
}

TEST(Resample, ARateOfNothingIsRefused) {
  EXPECT_THROW(resample(std::vector<double>(10, 0.0), 0.0, 48000.0), InternalError);
  EXPECT_THROW(resample(std::vector<double>(10, 0.0), 48000.0, -1.0), InternalError);
}

}  // namespace
}  // namespace ringfall::signal
