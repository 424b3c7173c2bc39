// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/sharpness.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "base/csv.h"
#include "signal/loudness.h"
#include "signal/loudness_signals.h"

namespace ringfall::signal {
namespace {

using namespace test_sounds;

std::array<double, 28> noise_levels_db(double low_hz, double high_hz) {
  return loudness_band_levels_db(band_noise(low_hz, high_hz, 60.0), kRate_hz).value();
}

/// Sharpness of that spectrum, raised or lowered until it has 4 sone.
double sharpness_at_4_sone(const std::array<double, 28>& levels_db) {
  StationaryLoudness loudness;
  double low = -60.0, high = 60.0;
  for (int i = 0; i < 50; ++i) {
    const double shift = 0.5 * (low + high);
    std::array<double, 28> shifted = levels_db;
    for (double& level : shifted) level += shift;
    loudness = stationary_loudness(shifted, SoundField::free);
    (loudness.loudness_sone < 4.0 ? low : high) = shift;
  }
  EXPECT_NEAR(loudness.loudness_sone, 4.0, 1e-6);
  return sharpness_acum(loudness.specific_sone_per_bark).value();
}

/// DIN 45692:2009: within 5 % or 0.05 acum.
double allowed(double acum) { return std::max(0.05 * acum, 0.05); }

// DIN 45692:2009: narrow-band noise 920 .. 1080 Hz at 60 dB has 1 acum, and k lies in 0.105 .. 0.115.
TEST(Sharpness, ReferenceSound) {
  EXPECT_GE(sharpness_factor(), 0.105);
  EXPECT_LT(sharpness_factor(), 0.115);
  const StationaryLoudness loudness = stationary_loudness(noise_levels_db(920, 1080), SoundField::free);
  EXPECT_NEAR(sharpness_acum(loudness.specific_sone_per_bark).value(), 1.0, 0.002);
  // The same sound by the time-varying method, mean N' once the filters have settled.
  const LoudnessTrace trace =
      time_varying_loudness(band_noise(920, 1080, 60.0), kRate_hz, SoundField::free, KeepSpecific::yes);
  SpecificLoudness sum{};
  for (std::size_t t = 100; t < trace.specific_sone_per_bark.size(); ++t)
    for (std::size_t k = 0; k < kSpecificValues; ++k) sum[k] += trace.specific_sone_per_bark[t][k];
  EXPECT_NEAR(sharpness_acum(sum).value(), 1.0, 0.01);
}

// DIN 45692:2009 Tables A.2 and A.3, as transcribed in open test data (tests/data/iso532_1/README.md).
TEST(Sharpness, NarrowAndBroadNoiseOfTheStandard) {
  const CsvTable csv = read_csv(std::string(RINGFALL_TEST_DATA) + "/iso532_1/din45692_sharpness_targets.csv");
  ASSERT_EQ(csv.rows.size(), 21u);
  int broad_bands = 0;
  for (std::size_t r = 0; r < csv.rows.size(); ++r) {
    const double centre_hz = csv.number(r, 1).value();
    const double narrow = csv.number(r, 4).value();
    EXPECT_NEAR(sharpness_at_4_sone(noise_levels_db(csv.number(r, 2).value(), csv.number(r, 3).value())), narrow,
                allowed(narrow))
        << centre_hz;
    const auto broad = csv.number(r, 5);
    if (!broad) continue;
    ++broad_bands;
    EXPECT_NEAR(sharpness_at_4_sone(noise_levels_db(centre_hz, 10000.0)), *broad, allowed(*broad)) << centre_hz;
  }
  EXPECT_EQ(broad_bands, 20);
}

// By hand: all of N' at one place z gives k g(z) z, whatever its height.
TEST(Sharpness, OnePlace) {
  SpecificLoudness n{};
  n[99] = 3.0;  // 10.0 Bark, g = 1
  EXPECT_NEAR(sharpness_acum(n).value(), sharpness_factor() * 10.0, 1e-9);
  n[99] = 0.0;
  n[199] = 0.2;  // 20.0 Bark, g = 0.15 e^(0.42 * 4.2) + 0.85 = 1.72536
  EXPECT_NEAR(sharpness_acum(n).value() / sharpness_factor(), 34.5072, 0.001);
}

TEST(Sharpness, NothingHasNone) { EXPECT_FALSE(sharpness_acum(SpecificLoudness{})); }

}  // namespace
}  // namespace ringfall::signal
