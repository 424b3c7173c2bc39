// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness_bands.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "signal/loudness_signals.h"
#include "signal/plain_loudness.h"

namespace ringfall::signal {
namespace {

using namespace test_sounds;

double centre_hz(std::size_t band) { return 1000.0 * std::pow(10.0, (static_cast<double>(band) - 16.0) / 10.0); }

// IEC 61260-1:2014 Table 1, class 1: a tone in the middle of a band is read within 0.4 dB.
TEST(LoudnessBands, ToneInTheMiddleIsRead) {
  for (std::size_t b = 0; b < kThirdOctaves; ++b) {
    const std::vector<double> x = tone(centre_hz(b), 80.0, 3.0);
    const double power = mean_band_powers(x, kRate_hz, 1.0).value()[b];
    EXPECT_NEAR(power_to_db(power / (kReferencePressure_pa * kReferencePressure_pa)), 80.0, 0.4) << centre_hz(b);
    // Smoothed, what is left of the square's ripple at twice the frequency is 0.2 % (three times (1 + 8.4^2)^(-1/2), by
    // hand); the mean over a broken number of periods adds as much at 25 Hz.
    EXPECT_NEAR(smoothed_band_powers(x, kRate_hz).back()[b] / power, 1.0, 0.006) << centre_hz(b);
  }
}

TEST(LoudnessBands, AgreeWithThePlainFiltersDownToTheirRoundingNoise) {
  const PlainLoudness plain(std::string(RINGFALL_TEST_DATA) + "/iso532_1");
  for (const double frequency_hz : {50.0, 1000.0, 15000.0}) {
    const std::vector<double> x = tone(frequency_hz, 110.0, 0.5);
    const auto slow_db = plain.levels_db(x, 0.2);
    const BandPowers fast = mean_band_powers(x, kRate_hz, 0.2).value();
    for (std::size_t b = 0; b < kThirdOctaves; ++b) {
      const double slow_pa2 = 4e-10 * db_to_power(slow_db[b]) - 1e-12;
      // 100 dB under the whole signal, and 0.001 dB of the band for coefficients in single precision.
      const double allowed_pa2 = 2.3e-4 * slow_pa2 + 1e-10 * 4e-10 * db_to_power(110.0);
      EXPECT_NEAR(fast[b], slow_pa2, allowed_pa2) << frequency_hz << ' ' << b;
    }
  }
}

TEST(LoudnessBands, FramesAndEmptySpans) {
  EXPECT_TRUE(smoothed_band_powers({}, kRate_hz).empty());
  EXPECT_EQ(smoothed_band_powers(std::vector<double>(24, 1.0), kRate_hz).size(), 1u);
  EXPECT_EQ(smoothed_band_powers(std::vector<double>(25, 1.0), kRate_hz).size(), 2u);
  EXPECT_FALSE(mean_band_powers({}, kRate_hz, 0.0));
  EXPECT_FALSE(mean_band_powers(std::vector<double>(24, 1.0), kRate_hz, 0.0005));
  EXPECT_THROW(smoothed_band_powers(std::vector<double>(24, 1.0), 4000.0), InternalError);
}

}  // namespace
}  // namespace ringfall::signal
