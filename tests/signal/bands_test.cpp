// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/bands.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <vector>

#include "base/csv.h"
#include "base/units.h"
#include "signal/segment_spectrum.h"

namespace ringfall::signal {
namespace {

constexpr double kRate_hz = 48000.0;

std::vector<double> sine(double frequency_hz, double rate_hz, double duration_s) {
  std::vector<double> samples(static_cast<std::size_t>(duration_s * rate_hz));
  for (std::size_t n = 0; n < samples.size(); ++n) {
    samples[n] = std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / rate_hz + 0.4);
  }
  return samples;
}

double middle_mean(const BandPower& power) {
  const auto middle = power.between(0.3, 0.9);
  double sum = 0.0;
  for (const double value : middle) sum += value;
  return sum / static_cast<double>(middle.size());
}

/// Attenuation of a sine by the band as measured through the splitter, dB.
double measured_db(const Band& band, double frequency_hz, double rate_hz) {
  const SegmentSpectrum segment(sine(frequency_hz, rate_hz, 1.2), rate_hz, 0.2);
  return -power_to_db(middle_mean(segment.band_power(band).value()) / 0.5);
}

TEST(Bands, EdgesAndNamesOfOctaves) {
  // IEC 61260-1:2014 5.2 to 5.5 (G = 10^(3/10), 1 kHz reference), ISO 266 names; edges as printed in open tables.
  ASSERT_EQ(octave_bands().size(), 8U);
  EXPECT_EQ(octave_bands().front().nominal_hz, 63.0);
  EXPECT_NEAR(octave_bands().front().low_hz, 44.66836, 1e-5);
  EXPECT_NEAR(octave_bands().front().high_hz, 89.12509, 1e-5);
  EXPECT_EQ(octave_bands().back().nominal_hz, 8000.0);
  EXPECT_NEAR(octave_bands().back().high_hz, 11220.18454, 1e-5);
  EXPECT_EQ(octave_band(0).nominal_hz, 1000.0);
  // Third octave 3.15 kHz: middle 3162.278, edges 2818.383 and 3548.134.
  EXPECT_EQ(third_octave_band(5).nominal_hz, 3150.0);
  EXPECT_NEAR(third_octave_band(5).low_hz, 2818.38293, 1e-5);
  EXPECT_NEAR(third_octave_band(5).high_hz, 3548.13389, 1e-5);
}

TEST(Bands, SinesKeepTheClass1Limits) {
  // tests/data/iec61260_class1_limits.csv: IEC 61260-1:2014 Table 1 with the break points of formulae for 1/b octaves
  // (IEC 61260-1:2014 5.10.4), as transcribed in open test data. Relative attenuation: 0 dB in the middle of the band.
  const CsvTable table = read_csv(RINGFALL_TEST_DATA "/iec61260_class1_limits.csv");
  ASSERT_EQ(table.rows.size(), 20U);
  std::vector<Band> bands;
  for (const Band& band : octave_bands()) bands.push_back(band);
  for (int x = -13; x <= 10; x += 4) bands.push_back(third_octave_band(x));
  for (const Band& band : bands) {
    const double middle_hz = std::sqrt(band.low_hz * band.high_hz);
    const double reference_db = measured_db(band, middle_hz, kRate_hz);
    EXPECT_NEAR(reference_db, 0.0, 0.01);
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
      const auto cell = [&](const char* title) { return table.number(row, table.needed_column(title)); };
      if (cell("bands_per_octave").value() != band.bands_per_octave) continue;
      for (const char* side : {"ratio_above", "ratio_below"}) {
        const double frequency_hz = middle_hz * cell(side).value();
        if (frequency_hz < 20.0 || frequency_hz > 0.45 * kRate_hz) continue;
        const double attenuation_db = measured_db(band, frequency_hz, kRate_hz) - reference_db;
        EXPECT_GE(attenuation_db, cell("least_db").value()) << band.nominal_hz << ": " << frequency_hz;
        EXPECT_LE(attenuation_db, cell("most_db").value_or(INFINITY)) << band.nominal_hz << ": " << frequency_hz;
      }
    }
  }
}

TEST(Bands, SplitterFollowsTheStatedAttenuation) {
  for (const double frequency_hz : {450.0, 708.0, 1000.0, 1300.0, 1412.5, 1800.0, 2200.0}) {
    EXPECT_NEAR(measured_db(octave_band(0), frequency_hz, kRate_hz), band_attenuation_db(octave_band(0), frequency_hz),
                0.1)
        << frequency_hz;
  }
  EXPECT_GT(measured_db(octave_band(0), 300.0, kRate_hz), 100.0);
  const auto reach = band_reach(octave_band(0), 60.0);
  EXPECT_NEAR(band_attenuation_db(octave_band(0), reach.low_hz), 60.0, 1e-9);
  EXPECT_NEAR(band_attenuation_db(octave_band(0), reach.high_hz), 60.0, 1e-9);
}

TEST(Bands, NeighboursAddUpToTheWhole) {
  // IEC 61260-1:2014 5.13 (summation of output signals, class 1): between +0.8 and -1.8 dB of the input level.
  for (double frequency_hz = 130.0; frequency_hz < 7000.0; frequency_hz *= 1.07) {
    const SegmentSpectrum segment(sine(frequency_hz, kRate_hz, 1.2), kRate_hz, 0.2);
    double octaves = 0.0, thirds = 0.0;
    for (const Band& band : octave_bands()) octaves += middle_mean(segment.band_power(band).value());
    for (int x = -12; x <= 12; ++x) thirds += middle_mean(segment.band_power(third_octave_band(x)).value());
    for (const double sum : {octaves, thirds}) {
      const double deviation_db = power_to_db(sum / 0.5);
      EXPECT_LE(deviation_db, 0.8) << frequency_hz;
      EXPECT_GE(deviation_db, -1.8) << frequency_hz;
      EXPECT_NEAR(deviation_db, 0.0, 0.35) << frequency_hz;  // our own shape does better than it must
    }
  }
}

TEST(Bands, SineInTheMiddleReadsHalfItsSquareAtAllTimes) {
  // Definition of the analytic envelope: no ripple at twice the frequency.
  for (const Band& band : octave_bands()) {
    const double middle_hz = std::sqrt(band.low_hz * band.high_hz);
    const SegmentSpectrum segment(sine(middle_hz, kRate_hz, 1.2), kRate_hz, 0.2);
    const auto power = segment.band_power(band).value();
    EXPECT_GE(power.rate_hz, 1000.0);
    EXPECT_FALSE(power.cut_at_nyquist);
    for (const double value : power.between(0.3, 0.9)) ASSERT_NEAR(value, 0.5, 0.002) << band.nominal_hz;
  }
}

TEST(Bands, EnergyOfABurstIsKeptAndStaysInPlace) {
  // A 100 ms burst of amplitude 1 at 4 kHz in the 4 kHz octave: energy 0.05 (closed form), between 0.4 and 0.5 s.
  std::vector<double> burst(48000, 0.0);
  for (std::size_t n = 19200; n < 24000; ++n) {
    burst[n] = std::sin(2.0 * std::numbers::pi * 4000.0 * static_cast<double>(n) / kRate_hz);
  }
  const auto power = SegmentSpectrum(burst, kRate_hz).band_power(octave_band(2)).value();
  const auto energy = [&](double begin_s, double end_s) {
    double sum = 0.0;
    for (const double value : power.between(begin_s, end_s)) sum += value;
    return sum / power.rate_hz;
  };
  EXPECT_NEAR(energy(0.0, 1.0), 0.05, 0.0005);
  EXPECT_NEAR(energy(0.395, 0.505), 0.05, 0.0005);
  EXPECT_NEAR(energy(0.405, 0.495), 0.045, 0.0005);
}

TEST(Bands, LowRateEndsTheBandAndSaysSo) {
  const SegmentSpectrum segment(sine(3000.0, 16000.0, 1.2), 16000.0, 0.2);
  const auto high = segment.band_power(high_band());
  ASSERT_TRUE(high);
  EXPECT_TRUE(high->cut_at_nyquist);
  EXPECT_EQ(high->high_hz, 8000.0);
  EXPECT_NEAR(middle_mean(*high), 0.5, 0.002);
  EXPECT_TRUE(segment.band_power(octave_band(3))->cut_at_nyquist);   // 8 kHz octave reaches to 11.2 kHz
  EXPECT_FALSE(segment.band_power(octave_band(2))->cut_at_nyquist);  // 4 kHz octave to 5.6 kHz
  EXPECT_FALSE(segment.band_power(octave_band(4)));                  // 16 kHz octave begins at 11.2 kHz
}

TEST(Bands, CutEndsOfARumbleMakeNoClick) {
  // 80 Hz at 94 dB, cut anywhere: without fading the ends the cut alone would read over 60 dB in the 4 kHz octave.
  const SegmentSpectrum segment(sine(80.0, kRate_hz, 0.503), kRate_hz);
  const auto power = segment.band_power(octave_band(2)).value();
  double highest = 0.0;
  for (const double value : power.between(0.004, 0.499)) highest = std::max(highest, value);
  EXPECT_LT(power_to_db(highest / 0.5), -90.0);
}

}  // namespace
}  // namespace ringfall::signal
