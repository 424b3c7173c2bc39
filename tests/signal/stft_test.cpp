// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/stft.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>
#include <vector>

#include "base/failure.h"

namespace ringfall::signal {
namespace {

std::vector<double> sine(double amplitude, double frequency_hz, std::size_t count) {
  std::vector<double> x(count);
  for (std::size_t n = 0; n < count; ++n)
    x[n] = amplitude * std::cos(2 * std::numbers::pi * frequency_hz * static_cast<double>(n) / 48000);
  return x;
}

// Harris, Proc. IEEE 66 (1978) 51, table I: Hann coherent gain 0.50, noise bandwidth 1.50, highest side lobe -32 dB;
// four-term Blackman-Harris 0.36, 2.00, -92 dB.
TEST(Window, HarrisTable) {
  const auto hann = make_window(WindowShape::hann, 4096);
  EXPECT_NEAR(coherent_gain(hann), 0.50, 0.005);
  EXPECT_NEAR(noise_bandwidth_bins(hann), 1.50, 0.005);
  const auto low = make_window(WindowShape::blackman_harris, 4096);
  EXPECT_NEAR(coherent_gain(low), 0.36, 0.005);
  EXPECT_NEAR(noise_bandwidth_bins(low), 2.00, 0.005);
  EXPECT_THROW(make_window(WindowShape::hann, 0), InternalError);
}

// Side lobes seen in steps of 1/8 bin: a short window at the start of a frame of zeros.
TEST(Window, SideLobes) {
  for (const auto shape : {WindowShape::hann, WindowShape::blackman_harris}) {
    const auto window = make_window(shape, 256);
    const double lobe_bins = shape == WindowShape::hann ? 2 : 4;
    double worst = 0;
    for (double bin = lobe_bins; bin < 128; bin += 0.125) {
      double re = 0, im = 0;
      for (std::size_t n = 0; n < window.size(); ++n) {
        const double turn = 2 * std::numbers::pi * bin * static_cast<double>(n) / 256;
        re += window[n] * std::cos(turn);
        im += window[n] * std::sin(turn);
      }
      worst = std::max(worst, std::hypot(re, im) / (256 * coherent_gain(window)));
    }
    EXPECT_NEAR(20 * std::log10(worst), shape == WindowShape::hann ? -31.5 : -92.0, 0.6);
  }
}

// A sine of amplitude a on a bin: a^2/2 there; in density that power over the noise bandwidth.
TEST(ShortTimeSpectra, SineOnABin) {
  const auto x = sine(3, 1500, 9600);  // bins of 50 Hz: bin 30
  const auto power = short_time_spectra(x, 48000, WindowShape::hann, 960, 480, SpectrumScaling::mean_square);
  ASSERT_EQ(power.frames, 19U);
  ASSERT_EQ(power.bins, 481U);
  EXPECT_DOUBLE_EQ(power.bin_hz, 50);
  EXPECT_DOUBLE_EQ(power.first_centre_s, 0.01);
  EXPECT_DOUBLE_EQ(power.hop_s, 0.01);
  for (std::size_t i = 0; i < power.frames; ++i) EXPECT_NEAR(power.frame(i)[30], 4.5, 1e-9);
  const auto density = short_time_spectra(x, 48000, WindowShape::hann, 960, 480, SpectrumScaling::density);
  EXPECT_NEAR(density.frame(3)[30], 4.5 / (1.5 * 50), 1e-9);
}

// Parseval: bins times width add up to the mean square of the windowed frame over that of the window, for any signal.
TEST(ShortTimeSpectra, DensityAddsUpToTheMeanSquare) {
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal(0.5, 1.0);
  for (const std::size_t length : {480U, 481U}) {
    std::vector<double> x(length);
    for (double& value : x) value = normal(random);
    const auto spectra = short_time_spectra(x, 48000, WindowShape::blackman_harris, length, 1, SpectrumScaling::density);
    ASSERT_EQ(spectra.frames, 1U);
    double sum = 0, expected = 0, squares = 0;
    for (const double value : spectra.frame(0)) sum += value * spectra.bin_hz;
    const auto window = make_window(WindowShape::blackman_harris, length);
    for (std::size_t n = 0; n < length; ++n) {
      expected += window[n] * window[n] * x[n] * x[n];
      squares += window[n] * window[n];
    }
    EXPECT_NEAR(sum, expected / squares, 1e-10 * sum);
  }
}

// A constant c has mean square c^2, all of it in bin 0 and the window's neighbours: bin 0 reads c^2.
TEST(ShortTimeSpectra, ConstantIsNotDoubled) {
  const std::vector<double> x(960, 2.0);
  const auto power = short_time_spectra(x, 48000, WindowShape::hann, 960, 480, SpectrumScaling::mean_square);
  EXPECT_NEAR(power.frame(0)[0], 4.0, 1e-12);
}

TEST(ShortTimeSpectra, CentreTimeIsWhereTheSoundIs) {
  std::vector<double> x(4800, 0.0);
  x[2400] = 1.0;  // a click at 50 ms
  const auto power = short_time_spectra(x, 48000, WindowShape::hann, 480, 24, SpectrumScaling::density);
  std::size_t loudest = 0;
  for (std::size_t i = 0; i < power.frames; ++i)
    if (power.frame(i)[100] > power.frame(loudest)[100]) loudest = i;
  EXPECT_NEAR(power.first_centre_s + static_cast<double>(loudest) * power.hop_s, 0.05, 1e-9);
}

TEST(ShortTimeSpectra, TooShortHasNoFrames) {
  const std::vector<double> x(959, 1.0);
  EXPECT_EQ(short_time_spectra(x, 48000, WindowShape::hann, 960, 480, SpectrumScaling::density).frames, 0U);
  EXPECT_THROW(short_time_spectra(x, 48000, WindowShape::hann, 1, 480, SpectrumScaling::density), InternalError);
  EXPECT_THROW(short_time_spectra(x, 48000, WindowShape::hann, 960, 0, SpectrumScaling::density), InternalError);
}

}  // namespace
}  // namespace ringfall::signal
