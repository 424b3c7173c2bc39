// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/levels.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <optional>
#include <random>
#include <vector>

#include "base/units.h"
#include "signal/noise_floor.h"
#include "signal/segment_spectrum.h"

namespace ringfall::signal {
namespace {

constexpr double kRate_hz = 48000.0;

/// Sine of amplitude 1 Pa between begin_s and begin_s + length_s, silence around it. Starts at a zero crossing.
std::vector<double> burst(double frequency_hz, double begin_s, double length_s, double whole_s, double rate_hz) {
  std::vector<double> samples(static_cast<std::size_t>(whole_s * rate_hz), 0.0);
  const auto begin = static_cast<std::size_t>(std::round(begin_s * rate_hz));
  const auto length = static_cast<std::size_t>(std::round(length_s * rate_hz));
  for (std::size_t n = 0; n < length && begin + n < samples.size(); ++n) {
    samples[begin + n] = std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / rate_hz);
  }
  return samples;
}

/// Level of the steady sine of 1 Pa: 10 lg(0.5 / (20 uPa)^2) = 90.969 dB.
const double kSteady_db = mean_square_level_db(0.5).value();

struct Toneburst {
  double length_s, fast_db, exposure_db;
  std::optional<double> slow_db;
};
/// IEC 61672-1:2013 Table 4, 4 kHz toneburst re steady level: LAFmax, LAE, LASmax; as transcribed in open test data.
constexpr Toneburst kTable4[] = {
    {1.0, 0.0, 0.0, -2.0},       {0.5, -0.1, -3.0, -4.1},     {0.2, -1.0, -7.0, -7.4},
    {0.1, -2.6, -10.0, -10.2},   {0.05, -4.8, -13.0, -13.1},  {0.02, -8.3, -17.0, -17.0},
    {0.01, -11.1, -20.0, -20.0}, {0.005, -14.1, -23.0, -23.0}, {0.002, -18.0, -27.0, -27.0},
    {0.001, -21.0, -30.0, {}},   {0.0005, -24.0, -33.0, {}},  {0.00025, -27.0, -36.0, {}}};

TEST(Levels, ToneburstsOfTable4) {
  // Our deviation is the table's rounding (0.05 dB) and, for bursts of one and two periods, the sidebands that the A
  // weighting shapes: 0.25 dB. The class 1 limits are 0.5 dB at the longest to +1; -3 dB at the shortest.
  const SegmentSpectrum steady(burst(4000.0, 0.0, 1.0, 1.0, kRate_hz), kRate_hz);
  const auto weighted = steady.weighted(FrequencyWeighting::a);
  const double reference_db = equivalent_level_db(std::span(weighted).subspan(9600, 24000)).value();
  for (const Toneburst& row : kTable4) {
    const SegmentSpectrum segment(burst(4000.0, 0.1, row.length_s, row.length_s + 0.4, kRate_hz), kRate_hz);
    const auto a = segment.weighted(FrequencyWeighting::a);
    const double allowed_db = row.length_s >= 0.001 ? 0.08 : 0.3;
    EXPECT_NEAR(time_weighted_maximum(a, kRate_hz, TimeWeighting::fast)->level_db - reference_db, row.fast_db,
                allowed_db)
        << row.length_s;
    EXPECT_NEAR(exposure_level_db(a, kRate_hz).value() - reference_db, row.exposure_db, allowed_db) << row.length_s;
    if (row.slow_db) {
      EXPECT_NEAR(time_weighted_maximum(a, kRate_hz, TimeWeighting::slow)->level_db - reference_db, *row.slow_db,
                  allowed_db)
          << row.length_s;
    }
  }
}

TEST(Levels, DecayRatesOfTheAverager) {
  // IEC 61672-1:2013 5.8.2: after switching off F falls by at least 25 dB/s; design goals 10 lg(e)/tau = 34.74 dB/s and
  // 4.343 dB/s (closed form), class 1 limits 31.0-38.5 and 3.6-5.1 dB/s as transcribed in open test data.
  const auto samples = burst(1000.0, 0.0, 1.0, 2.5, kRate_hz);
  const auto rate = [&](TimeWeighting weighting) {
    const auto trace = time_weighted_trace(samples, kRate_hz, weighting, 0.01);
    return (trace.at(110).value() - trace.at(210).value()) / 1.0;
  };
  EXPECT_NEAR(rate(TimeWeighting::fast), 34.744, 0.01);
  EXPECT_NEAR(rate(TimeWeighting::slow), 4.343, 0.002);
  EXPECT_EQ(time_constant_s(TimeWeighting::fast), 0.125);
  EXPECT_EQ(time_constant_s(TimeWeighting::slow), 1.0);
}

TEST(Levels, SteadySoundReadsTheSameFastAndSlow) {
  // IEC 61672-1:2013 5.8: steady F and S within 0.1 dB of each other (as transcribed in open test data).
  const auto samples = burst(1000.0, 0.0, 10.0, 10.0, 8000.0);
  const double fast_db = time_weighted_trace(samples, 8000.0, TimeWeighting::fast, 0.1).back().value();
  const double slow_db = time_weighted_trace(samples, 8000.0, TimeWeighting::slow, 0.1).back().value();
  EXPECT_NEAR(fast_db, kSteady_db, 0.02);
  EXPECT_NEAR(slow_db, fast_db, 0.1);
}

TEST(Levels, CPeaksOfTable5) {
  // IEC 61672-1:2013 Table 5, LCpeak - LC: one cycle 31.5 Hz 2.5, 500 Hz 3.5, 8 kHz 3.4; half cycle 500 Hz 2.4 dB
  // (class 1 limits 2.0, 1.0, 2.0, 1.0); as transcribed in open test data. The analogue filter gives 2.51, 3.53, 3.46
  // and 2.33 at infinite rate; 192 kHz comes near that, 48 kHz may miss the crest of 8 kHz by 1.25 dB.
  struct Row { double frequency_hz, cycles, goal_db, limit_db; };
  for (const Row& row : {Row{31.5, 1.0, 2.5, 2.0}, {500.0, 1.0, 3.5, 1.0}, {8000.0, 1.0, 3.4, 2.0},
                         {500.0, 0.5, 2.4, 1.0}}) {
    for (const double rate_hz : {48000.0, 192000.0}) {
      const auto peak = [&](double sign) {
        auto samples = burst(row.frequency_hz, 0.1, row.cycles / row.frequency_hz, 0.4, rate_hz);
        for (double& sample : samples) sample *= sign;
        return peak_level_db(SegmentSpectrum(samples, rate_hz).weighted(FrequencyWeighting::c)).value();
      };
      const double steady_db = kSteady_db + weighting_db(FrequencyWeighting::c, row.frequency_hz);
      for (const double sign : {1.0, -1.0}) {
        const double deviation_db = peak(sign) - steady_db - row.goal_db;
        EXPECT_LE(std::abs(deviation_db), row.limit_db) << row.frequency_hz << " at " << rate_hz;
        if (rate_hz > 100000.0) {
          EXPECT_NEAR(deviation_db, 0.0, 0.15) << row.frequency_hz;
        }
      }
    }
  }
}

TEST(Levels, DyingSineAgreesWithItsClosedForm) {
  // p = A e^(-t/tau) sin(w t): integral p^2 = (A^2 tau / 4) (w tau)^2 / (1 + (w tau)^2); with A = 1 Pa, tau = 50 ms,
  // 1 kHz: exposure level 74.948 dB. F maximum from the envelope A^2/2 e^(-2t/tau): at 50.29 ms, 82.232 dB.
  std::vector<double> samples(48000);
  for (std::size_t n = 0; n < samples.size(); ++n) {
    const double time_s = static_cast<double>(n) / kRate_hz;
    samples[n] = std::exp(-time_s / 0.05) * std::sin(2.0 * std::numbers::pi * 1000.0 * time_s);
  }
  EXPECT_NEAR(exposure_level_db(samples, kRate_hz).value(), 74.948, 0.001);
  const auto maximum = time_weighted_maximum(samples, kRate_hz, TimeWeighting::fast).value();
  EXPECT_NEAR(maximum.level_db, 82.232, 0.02);
  EXPECT_NEAR(maximum.time_s, 0.05029, 0.0004);
  // The A-weighted level of 1 kHz is the same, when the sound has a lead-in.
  std::vector<double> led(4800, 0.0);
  led.insert(led.end(), samples.begin(), samples.end());
  const auto weighted = SegmentSpectrum(led, kRate_hz).weighted(FrequencyWeighting::a);
  EXPECT_NEAR(exposure_level_db(weighted, kRate_hz).value(), 74.948, 0.05);
}

TEST(Levels, OnePascalIs94Decibels) {
  // 20 lg(1 / 20e-6) = 93.979 (IEC 60942:2017 nominal 94 dB); a sine peaks 3.0103 dB above its rms.
  EXPECT_NEAR(mean_square_level_db(1.0).value(), 93.979, 0.001);
  const auto samples = burst(1000.0, 0.0, 1.0, 1.0, kRate_hz);
  EXPECT_NEAR(peak_level_db(samples).value() - equivalent_level_db(samples).value(), 3.0103, 0.0001);
  // One second: exposure level equals equivalent level; a quarter is 10 lg(1/4) less.
  EXPECT_NEAR(exposure_level_db(samples, kRate_hz).value(), equivalent_level_db(samples).value(), 1e-9);
  EXPECT_NEAR(exposure_level_db(std::span(samples).first(12000), kRate_hz).value(), kSteady_db - 6.0206, 1e-3);
  std::vector<double> squares(samples.size());
  for (std::size_t n = 0; n < samples.size(); ++n) squares[n] = samples[n] * samples[n];
  EXPECT_NEAR(exposure_level_of_mean_square_db(squares, kRate_hz).value(), kSteady_db, 1e-6);
}

TEST(Levels, SilenceHasNoLevel) {
  const std::vector<double> silence(4800, 0.0);
  EXPECT_FALSE(equivalent_level_db(silence));
  EXPECT_FALSE(exposure_level_db(silence, kRate_hz));
  EXPECT_FALSE(peak_level_db(silence));
  EXPECT_FALSE(time_weighted_maximum(silence, kRate_hz, TimeWeighting::fast));
  EXPECT_FALSE(equivalent_level_db({}));
  EXPECT_FALSE(time_weighted_trace(silence, kRate_hz, TimeWeighting::fast, 0.05).at(1));
}

/// Noise of rms 0.01 Pa (53.979 dB) in a band of the given width round 1 kHz or, for 0, all the way to Nyquist.
std::vector<double> noise(std::uint64_t seed, double bandwidth_hz) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal;
  std::vector<double> samples(26400);  // 0.55 s
  if (bandwidth_hz == 0.0) {
    for (double& sample : samples) sample = 0.01 * normal(random);
    return samples;
  }
  // A resonance with poles of radius r passes the noise of -ln(r) fs / 2 hertz: driven, then scaled exactly.
  const double radius = std::exp(-2.0 * bandwidth_hz / kRate_hz);
  const double turn = 2.0 * radius * std::cos(2.0 * std::numbers::pi * 1000.0 / kRate_hz);
  const double loss = radius * radius;
  // Variance of x = turn x1 - loss x2 + e (closed form of the second-order autoregression).
  const double variance = (1.0 + loss) / ((1.0 - loss) * ((1.0 + loss) * (1.0 + loss) - turn * turn));
  double x1 = 0.0, x2 = 0.0;
  for (int warm = -20000; warm < static_cast<int>(samples.size()); ++warm) {
    const double x = turn * x1 - loss * x2 + normal(random);
    x2 = x1;
    x1 = x;
    if (warm >= 0) samples[static_cast<std::size_t>(warm)] = 0.01 * x / std::sqrt(variance);
  }
  return samples;
}

TEST(NoiseFloor, SteadyNoiseIsReadWithoutBias) {
  // Truth: 20 lg(0.01 / 20e-6) = 53.979 dB.
  for (const double bandwidth_hz : {0.0, 1000.0, 200.0, 60.0}) {
    double sum_db = 0.0;
    const int runs = 200;
    for (int run = 0; run < runs; ++run) {
      sum_db += floor_level_db(noise(static_cast<std::uint64_t>(run) + 1, bandwidth_hz), kRate_hz).value();
    }
    // 60 Hz of noise has 33 independent values in 0.55 s: the mean of a dB value itself is then 0.13 dB low.
    EXPECT_NEAR(sum_db / runs, 53.979, bandwidth_hz == 60.0 ? 0.5 : 0.2) << bandwidth_hz;
  }
}

TEST(NoiseFloor, ClickerAndReleaseAreLeftOut) {
  // The same noise with a 60 ms release scrape 20 dB louder and a 3 ms click 40 dB louder: the plain mean would be 18 dB high.
  for (const double bandwidth_hz : {0.0, 1000.0, 200.0}) {
    double sum_db = 0.0;
    const int runs = 100;
    for (int run = 0; run < runs; ++run) {
      auto samples = noise(static_cast<std::uint64_t>(run) + 1, bandwidth_hz);
      for (std::size_t n = 12000; n < 14880; ++n) samples[n] *= 10.0;
      for (std::size_t n = 6000; n < 6144; ++n) samples[n] *= 100.0;
      sum_db += floor_level_db(samples, kRate_hz).value();
    }
    EXPECT_NEAR(sum_db / runs, 53.979, 0.3) << bandwidth_hz;
  }
}

TEST(NoiseFloor, TooShortOrSilentHasNone) {
  EXPECT_FALSE(floor_level_db(std::vector<double>(4000, 0.01), kRate_hz));
  EXPECT_FALSE(floor_level_db(std::vector<double>(48000, 0.0), kRate_hz));
  EXPECT_FALSE(floor_mean_square(std::vector<double>(48000, 0.0), kRate_hz));
  EXPECT_FALSE(floor_level_db({}, kRate_hz));
}

}  // namespace
}  // namespace ringfall::signal
