// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/tonality.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

#include "signal/stft.h"

namespace ringfall::signal {
namespace {

constexpr double kBin_hz = 2.0;
constexpr double kDensity = 1e-3;  // per Hz
constexpr double kTonePower = 5.0;

/// Level noise of kDensity to 12 kHz with a tone of kTonePower instead of the noise in one bin.
std::vector<double> tone_in_noise(double tone_hz) {
  std::vector<double> spectrum(8000, kDensity * kBin_hz);
  spectrum[static_cast<std::size_t>(std::lround(tone_hz / kBin_hz))] = kTonePower;
  return spectrum;
}

double db(double ratio) { return 10 * std::log10(ratio); }

// Closed forms for a tone of power P in white noise of density N0: TNR = 10 lg(P/(N0 width)), and
// PR = 10 lg[(P + N0 (width - bin))/(N0 (below + above)/2)].
TEST(Tonality, ClosedFormsInWhiteNoise) {
  for (const double f : {180.0, 440.0, 1000.0, 3000.0, 10000.0}) {
    const auto spectrum = tone_in_noise(f);
    const auto ratio = tone_to_noise_ratio_db(spectrum, kBin_hz, f, {f - 0.5 * kBin_hz, f + 0.5 * kBin_hz});
    ASSERT_TRUE(ratio);
    EXPECT_NEAR(*ratio, db(kTonePower / (kDensity * critical_bandwidth_hz(f))), 1e-6) << f;
    const double below = critical_band_below(f).width_hz(), above = critical_band_above(f).width_hz();
    const auto prominence = prominence_ratio_db(spectrum, kBin_hz, f);
    ASSERT_TRUE(prominence);
    EXPECT_NEAR(*prominence,
                db((kTonePower + kDensity * (critical_bandwidth_hz(f) - kBin_hz)) / (0.5 * kDensity * (below + above))),
                1e-6) << f;
  }
  // Up to 171.4 Hz the lower band counts as 100 Hz wide.
  EXPECT_NEAR(*prominence_ratio_db(tone_in_noise(120), kBin_hz, 120),
              db((kTonePower + kDensity * (critical_bandwidth_hz(120) - kBin_hz)) /
                 (0.5 * kDensity * (100 + critical_band_above(120).width_hz()))), 1e-6);
}

// The same through samples: a sine in white noise, averaged spectra, tone over the window's main lobe.
TEST(Tonality, SineInNoise) {
  std::mt19937_64 random(1);
  std::normal_distribution<double> normal;
  std::vector<double> x(480000);
  for (std::size_t n = 0; n < x.size(); ++n)
    x[n] = 0.3 * std::sin(2 * 3.14159265358979 * 1000 * static_cast<double>(n) / 48000) + normal(random);
  const auto frames = short_time_spectra(x, 48000, WindowShape::hann, 24000, 12000, SpectrumScaling::density);
  std::vector<double> mean(frames.bins, 0.0);
  for (std::size_t i = 0; i < frames.frames; ++i)
    for (std::size_t k = 0; k < frames.bins; ++k) mean[k] += frames.frame(i)[k];
  const auto ratio = tone_to_noise_ratio_db(mean, frames.bin_hz, 1000, {995, 1005});
  ASSERT_TRUE(ratio);
  // N0 = 1/24000 per Hz, P = 0.045; the lobe's 10 Hz of noise go with the tone.
  EXPECT_NEAR(*ratio, db((0.045 + 10.0 / 24000) / (critical_bandwidth_hz(1000) / 24000)), 0.5);
}

// Criteria as printed: 8 and 9 dB from 1 kHz; at 100 Hz by hand 8 + 8.33 = 16.33 and 9 + 10 = 19 dB.
TEST(Tonality, Criteria) {
  EXPECT_DOUBLE_EQ(*prominent_tone_to_noise_db(1000), 8.0);
  EXPECT_DOUBLE_EQ(*prominent_tone_to_noise_db(5000), 8.0);
  EXPECT_NEAR(*prominent_tone_to_noise_db(100), 16.33, 1e-9);
  EXPECT_DOUBLE_EQ(*prominent_prominence_ratio_db(2000), 9.0);
  EXPECT_NEAR(*prominent_prominence_ratio_db(100), 19.0, 1e-9);
}

TEST(Tonality, NoAnswer) {
  const auto spectrum = tone_in_noise(1000);
  EXPECT_FALSE(tone_to_noise_ratio_db(spectrum, kBin_hz, 80, {79, 81}));
  EXPECT_FALSE(prominence_ratio_db(spectrum, kBin_hz, 80));
  EXPECT_FALSE(prominent_tone_to_noise_db(12000));
  EXPECT_FALSE(prominent_prominence_ratio_db(12000));
  EXPECT_FALSE(tone_to_noise_ratio_db(spectrum, kBin_hz, 1000, {980, 1020}));  // 25 % of the band is no tone
  const std::vector<double> short_spectrum(520, 1.0);                          // ends at 1039 Hz
  EXPECT_FALSE(tone_to_noise_ratio_db(short_spectrum, kBin_hz, 1000, {999, 1001}));
  EXPECT_FALSE(prominence_ratio_db(short_spectrum, kBin_hz, 1000));
  EXPECT_FALSE(tone_to_noise_ratio_db(std::vector<double>(8000, 0.0), kBin_hz, 1000, {999, 1001}));
  EXPECT_FALSE(prominence_ratio_db(std::vector<double>(8000, 0.0), kBin_hz, 1000));
}

}  // namespace
}  // namespace ringfall::signal
