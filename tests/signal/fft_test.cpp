// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/fft.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "base/failure.h"

namespace ringfall::signal {
namespace {

using Complex = std::complex<double>;

// By the definition: cos(2 pi 3 n / N) has N/2 in bins 3 and N - 3 and nothing elsewhere.
TEST(Fft, ACosineOnABinFillsThatBin) {
  constexpr std::size_t n = 48;
  std::vector<double> wave(n);
  for (std::size_t k = 0; k < n; ++k) wave[k] = std::cos(2.0 * std::numbers::pi * 3.0 * static_cast<double>(k) / n);
  std::vector<Complex> bins(n / 2 + 1);
  fft_real(wave, bins);
  for (std::size_t k = 0; k < bins.size(); ++k) EXPECT_NEAR(std::abs(bins[k]), k == 3 ? n / 2.0 : 0.0, 1e-12) << k;
}

TEST(Fft, ForwardIsTheSumOfTheDefinition) {
  const std::vector<Complex> wave = {{1, 2}, {-1, 0.5}, {0, 3}, {2, -2}, {0.25, 1}};
  std::vector<Complex> bins(wave.size());
  fft_complex(wave, bins);
  for (std::size_t k = 0; k < wave.size(); ++k) {
    Complex sum = 0.0;
    for (std::size_t m = 0; m < wave.size(); ++m) {
      sum += wave[m] * std::polar(1.0, -2.0 * std::numbers::pi * static_cast<double>(k * m) / 5.0);
    }
    EXPECT_NEAR(std::abs(bins[k] - sum), 0.0, 1e-12) << k;
  }
}

TEST(Fft, InverseUndoesForwardAndLeavesItsInput) {
  for (const std::size_t n : {1U, 2U, 7U, 30U, 1024U}) {
    std::vector<double> wave(n);
    for (std::size_t k = 0; k < n; ++k) wave[k] = std::sin(1.7 * static_cast<double>(k * k));
    std::vector<Complex> bins(n / 2 + 1);
    fft_real(wave, bins);
    const auto kept = bins;
    std::vector<double> back(n);
    ifft_real(bins, back);
    for (std::size_t k = 0; k < n; ++k) EXPECT_NEAR(back[k], wave[k], 1e-12);
    EXPECT_EQ(bins, kept);
  }
}

TEST(Fft, WorksInPlace) {
  std::vector<Complex> values = {{1, 0}, {2, 1}, {0, -1}, {3, 2}};
  const auto before = values;
  fft_complex(values, values);
  ifft_complex(values, values);
  for (std::size_t k = 0; k < values.size(); ++k) EXPECT_NEAR(std::abs(values[k] - before[k]), 0.0, 1e-12);
}

TEST(Fft, FastLengthsHaveSmallFactors) {
  EXPECT_EQ(fast_length(1), 1U);
  EXPECT_EQ(fast_length(7), 8U);
  EXPECT_EQ(fast_length(97), 100U);
  EXPECT_EQ(fast_length(1025), 1080U);
  for (std::size_t n = 1; n < 5000; n += 37) {
    std::size_t length = fast_length(n);
    EXPECT_GE(length, n);
    for (const std::size_t factor : {2U, 3U, 5U}) {
      while (length % factor == 0) length /= factor;
    }
    EXPECT_EQ(length, 1U) << n;
  }
}

TEST(Fft, RefusesWrongLengths) {
  std::vector<double> wave(8);
  std::vector<Complex> bins(4);
  EXPECT_THROW(fft_real(wave, bins), InternalError);
  EXPECT_THROW(fast_length(0), InternalError);
}

}  // namespace
}  // namespace ringfall::signal
