// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/esprit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <numbers>
#include <random>
#include <vector>

namespace ringfall::signal {
namespace {

using Complex = std::complex<double>;

// The two-component signal of Kumaresan & Tufts, IEEE Trans. ASSP 30 (1982) 833: s1, s2 as printed there; N = 25 and
// unit amplitudes from memory.
const Complex kFirst(-0.2, 2 * std::numbers::pi * 0.42);
const Complex kSecond(-0.1, 2 * std::numbers::pi * 0.52);

std::vector<Complex> signal(double noise_variance, std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  const double sd = std::sqrt(noise_variance / 2);
  std::vector<Complex> y;
  for (int n = 0; n < 25; ++n) y.push_back(std::exp(kFirst * double(n)) + std::exp(kSecond * double(n)) +
                                           sd * Complex(normal(random), normal(random)));
  return y;
}

/// ln z of the pole nearest to s, the turn taken nearest to s too.
Complex nearest(const std::vector<Complex>& poles, const Complex& s) {
  Complex best(1e9, 0);
  for (const Complex& z : poles) {
    const Complex off = std::log(z / std::exp(s));
    if (std::abs(off) < std::abs(best - s)) best = s + off;
  }
  return best;
}

TEST(Esprit, KumaresanTuftsWithoutNoise) {
  std::mt19937_64 random(1);
  const EspritSubspace subspace(signal(0, random), 10);
  EXPECT_EQ(subspace.count_above_noise(4), 2U);
  const auto poles = subspace.poles(2);
  EXPECT_LT(std::abs(nearest(poles, kFirst) - kFirst), 1e-8);
  EXPECT_LT(std::abs(nearest(poles, kSecond) - kSecond), 1e-8);
}

// Bounds by the exact Fisher matrix (two complex components, all parameters unknown): 0.20147 s for the first, 0.082785 s for
// the second. ESPRIT alone lies some per cent above.
TEST(Esprit, KumaresanTuftsAt20dBNearTheBound) {
  std::mt19937_64 random(2);
  constexpr int kRuns = 500;
  double first_decay = 0, first_turn = 0, second_decay = 0, second_turn = 0;
  for (int run = 0; run < kRuns; ++run) {
    const auto poles = EspritSubspace(signal(0.01, random), 10).poles(2);
    const Complex first = nearest(poles, kFirst) - kFirst, second = nearest(poles, kSecond) - kSecond;
    first_decay += std::pow(first.real() / 0.020147, 2);
    first_turn += std::pow(first.imag() / 0.020147, 2);
    second_decay += std::pow(second.real() / 0.0082785, 2);
    second_turn += std::pow(second.imag() / 0.0082785, 2);
  }
  for (const double squares : {first_decay, first_turn, second_decay, second_turn}) {
    EXPECT_LT(std::sqrt(squares / kRuns), 1.2);
    EXPECT_GT(std::sqrt(squares / kRuns), 0.9);
  }
}

TEST(Esprit, WhiteNoiseSeldomRises) {
  std::mt19937_64 random(3);
  std::normal_distribution<double> normal;
  int risen = 0;
  for (int run = 0; run < 500; ++run) {
    std::vector<Complex> y(60);
    for (auto& value : y) value = Complex(normal(random), normal(random));
    if (EspritSubspace(y, 20).count_above_noise(4) > 0) ++risen;
  }
  EXPECT_LT(risen, 75);
}

}  // namespace
}  // namespace ringfall::signal
