// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/zoom_band.h"

#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

#include "base/failure.h"
#include "signal/damped_sinusoid_reference.h"

namespace ringfall::signal {
namespace {

using namespace reference;

/// Largest error of a zoomed damped sinusoid against (A/2) e^{j phi} e^{(s - j 2 pi zero) t}, away from the edges, over A/2.
double worst_error(double frequency_hz, double low_hz, double high_hz) {
  constexpr double kDecay = 6, kPhase = 0.4;
  const TailSpectrum tail(samples({tone(frequency_hz, kDecay, 2, kPhase)}, 48000, 24000), 48000);
  const BinRange range = bins_between(tail, low_hz, high_hz);
  const ZoomedBand band = zoom_band(tail, range, range.count / 6);
  EXPECT_EQ(band.samples.size(), range.count);
  double worst = 0;
  for (std::size_t m = band.edge; m + band.edge < band.samples.size(); ++m) {
    const double t = static_cast<double>(m) / band.rate_hz;
    const double turn = 2 * std::numbers::pi * (frequency_hz - band.zero_hz) * t + kPhase;
    worst = std::max(worst, std::abs(band.samples[m] - std::polar(std::exp(-kDecay * t), turn)));
  }
  return worst;
}

// Definition in zoom_band.h; mid-band, so the taper is 1 at the tone. What remains is the ringing of the gate's steps.
TEST(ZoomBand, KeepsADampedSinusoid) { EXPECT_LT(worst_error(1000, 900, 1100), 0.05); }
TEST(ZoomBand, NearZero) { EXPECT_LT(worst_error(60, 2, 120), 0.08); }
TEST(ZoomBand, NearNyquist) { EXPECT_LT(worst_error(23940, 23880, 23998), 0.08); }

TEST(ZoomBand, RateAndZeroFollowTheBins) {
  const TailSpectrum tail(std::vector<double>(24000, 1.0), 48000);
  EXPECT_EQ(tail.length(), 24000U);
  const BinRange range = bins_between(tail, 900, 1100);  // bins of 2 Hz: 450 .. 550
  EXPECT_EQ(range.first, 450U);
  EXPECT_EQ(range.count, 101U);
  const ZoomedBand band = zoom_band(tail, range, 0);
  EXPECT_DOUBLE_EQ(band.zero_hz, 900);
  EXPECT_DOUBLE_EQ(band.rate_hz, 202);
}

// A dc offset is in bin 0 alone, which no range holds; nor the Nyquist bin.
TEST(ZoomBand, OffsetStaysOut) {
  const TailSpectrum tail(std::vector<double>(24000, 1.0), 48000);
  const BinRange all = bins_between(tail, 0, 24000);
  EXPECT_EQ(all.first, 1U);
  EXPECT_EQ(all.count, 11999U);
  for (const auto& sample : zoom_band(tail, all, 0).samples) EXPECT_LT(std::abs(sample), 1e-12);
}

TEST(ZoomBand, LengthIsFastAndNearlyAll) {
  // 23999 = 103 * 233; the next 2^a 3^b 5^c below is 23328 = 2^5 3^6 5^0, 2.8 % less.
  EXPECT_EQ(TailSpectrum(std::vector<double>(23999, 0.0), 48000).length(), 23328U);
}

TEST(ZoomBand, NoBinsAndBrokenPromises) {
  const TailSpectrum tail(std::vector<double>(480, 0.0), 48000);
  EXPECT_EQ(bins_between(tail, 110, 190).count, 0U);
  EXPECT_THROW(zoom_band(tail, {0, 10}, 0), InternalError);
  EXPECT_THROW(zoom_band(tail, {230, 11}, 0), InternalError);
  EXPECT_THROW(zoom_band(tail, {10, 5}, 3), InternalError);
  EXPECT_THROW(TailSpectrum(std::vector<double>(1, 0.0), 48000), InternalError);
}

}  // namespace
}  // namespace ringfall::signal
