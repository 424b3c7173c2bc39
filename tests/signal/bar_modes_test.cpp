// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

#include "signal/damped_sinusoid_reference.h"

/// Bending modes of uniform bars: a handbook's table, its equation solved again, and a struck rod made from it.
namespace ringfall::signal {
namespace {

using namespace reference;

/// The n-th root (from 1) of a function that changes sign once in each (low(n), low(n) + pi).
double root(const std::function<double(double)>& f, double low, double high) {
  for (int i = 0; i < 200; ++i) {
    const double middle = 0.5 * (low + high);
    ((f(low) < 0) == (f(middle) < 0) ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

// Blevins, Formulas for Natural Frequency and Mode Shape, table 8-1 (from memory; the first three free-free values also
// stand in open engineering tables).
const std::vector<double> kFreeFree = {4.73004074, 7.85320462, 10.9956078, 14.1371655, 17.2787597};
const std::vector<double> kCantilever = {1.87510407, 4.69409113, 7.85475744, 10.9955407, 14.1371684};
const std::vector<double> kClampedPinned = {3.92660231, 7.06858275, 10.2101761, 13.3517688};

// The frequency equations cos cosh = 1, cos cosh = -1 and tan = tanh, divided by cosh.
TEST(BarModes, HandbookTableSolvesItsEquations) {
  const double pi = std::numbers::pi;
  for (std::size_t i = 0; i < kFreeFree.size(); ++i) {
    const double n = static_cast<double>(i) + 1;
    EXPECT_NEAR(root([](double l) { return std::cos(l) - 1 / std::cosh(l); }, n * pi + 0.1, (n + 1) * pi - 0.1), kFreeFree[i], 1e-6);
    EXPECT_NEAR(root([](double l) { return std::cos(l) + 1 / std::cosh(l); }, (n - 1) * pi + 0.1, n * pi - 0.01), kCantilever[i], 1e-6);
  }
  for (std::size_t i = 0; i < kClampedPinned.size(); ++i) {
    const double n = static_cast<double>(i) + 1;
    EXPECT_NEAR(root([](double l) { return std::sin(l) - std::cos(l) * std::tanh(l); }, n * pi + 0.1, (n + 1) * pi - 0.1), kClampedPinned[i], 1e-6);
  }
}

// f_i = lambda_i^2/(2 pi L^2) sqrt(EI/(rho A)), rod: sqrt(I/A) = d/4. Aluminium E = 69 GPa, rho = 2700 kg/m3, d = 10 mm, L = 0.6 m, by
// hand: 125.0, 344.6, 675.5, 1116.7, 1668.1 Hz. Invented damping: 60 dB in 2, 1.5, 1, 0.6 and 0.3 s.
TEST(BarModes, StruckRodIsReadBack) {
  const std::vector<double> by_hand_hz = {125.0, 344.6, 675.5, 1116.7, 1668.1};
  const std::vector<double> ring_s = {2.0, 1.5, 1.0, 0.6, 0.3};
  const std::vector<double> amplitude = {0.3, 1.0, 0.7, 0.5, 0.4};
  std::vector<DampedSinusoid> modes;
  for (std::size_t i = 0; i < by_hand_hz.size(); ++i) {
    const double frequency_hz = kFreeFree[i] * kFreeFree[i] / (2 * std::numbers::pi * 0.36) * std::sqrt(69e9 / 2700) * 0.0025;
    EXPECT_NEAR(frequency_hz, by_hand_hz[i], 0.06);
    modes.push_back(tone(frequency_hz, 3 * std::numbers::ln10 / ring_s[i], amplitude[i], 0.5 * static_cast<double>(i)));
  }
  constexpr double kRate_hz = 44100;
  auto x = samples(modes, kRate_hz, 19845);
  std::mt19937_64 random(1);
  const double sd = noise_sd(1, 40);
  add_noise(x, sd, random);
  const auto bounds = fisher_bound(modes, sd, kRate_hz, 19845);
  const TailSpectrum tail(x, kRate_hz);
  for (std::size_t i = 0; i < modes.size(); ++i) {
    const double wide_hz = 60;
    const auto found = fit_damped_sinusoids(tail, modes[i].frequency_hz - wide_hz, modes[i].frequency_hz + wide_hz);
    ASSERT_EQ(found.sinusoids.size(), 1U) << i;
    const DampedSinusoid& got = found.sinusoids[0];
    EXPECT_NEAR(got.frequency_hz, modes[i].frequency_hz, 5 * bounds[i].frequency_hz) << i;
    EXPECT_NEAR(got.decay_per_s, modes[i].decay_per_s, 5 * bounds[i].decay_per_s) << i;
    EXPECT_NEAR(got.ring_time_s(), ring_s[i], 0.01 * ring_s[i]) << i;
    EXPECT_NEAR(got.amplitude, amplitude[i], 0.01 * amplitude[i]) << i;
    EXPECT_GT(found.explained, 0.98) << i;  // the rest is the skirts of the other modes
  }
}

}  // namespace
}  // namespace ringfall::signal
