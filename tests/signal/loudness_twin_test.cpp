// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <algorithm>

#include "signal/loudness.h"
#include "signal/loudness_signals.h"
#include "signal/plain_loudness.h"
#include "signal/sharpness.h"
#include "signal/shot_loudness.h"

namespace ringfall::signal {
namespace {

using namespace test_sounds;

// The fast code against the slow twin (plain_loudness.h), which takes every step the standard describes.
const PlainLoudness& plain() {
  static const PlainLoudness twin(std::string(RINGFALL_TEST_DATA) + "/iso532_1");
  return twin;
}

void expect_same(const std::vector<double>& x, double trace_share, bool diffuse = false) {
  const PlainLoudness::Trace slow = plain().time_varying(x, diffuse);
  const LoudnessTrace fast =
      time_varying_loudness(x, kRate_hz, diffuse ? SoundField::diffuse : SoundField::free, KeepSpecific::yes);
  ASSERT_EQ(slow.loudness_sone.size(), fast.loudness_sone.size());
  ASSERT_EQ(slow.specific_sone_per_bark.size(), fast.specific_sone_per_bark.size());
  double slow_max = 0.0, fast_max = 0.0;
  SpecificLoudness slow_sum{}, fast_sum{};
  for (std::size_t i = 0; i < slow.loudness_sone.size(); ++i) {
    const double n = slow.loudness_sone[i];
    EXPECT_NEAR(fast.loudness_sone[i], n, trace_share * std::max(2.0, n)) << "at step " << i;
    slow_max = std::max(slow_max, n);
    fast_max = std::max(fast_max, fast.loudness_sone[i]);
    for (std::size_t k = 0; k < kSpecificValues; ++k) {
      const double specific = slow.specific_sone_per_bark[i][k];
      EXPECT_NEAR(fast.specific_sone_per_bark[i][k], specific, 0.02 * std::max(1.0, specific)) << i << ' ' << k;
      slow_sum[k] += specific;
      fast_sum[k] += fast.specific_sone_per_bark[i][k];
    }
  }
  ASSERT_GT(slow_max, 1.0);
  // What a shot's numbers are made of.
  EXPECT_NEAR(fast_max, slow_max, 0.0005 * slow_max);
  EXPECT_NEAR(sharpness_acum(fast_sum).value(), sharpness_acum(slow_sum).value(), 0.001);
  if (diffuse) return;
  const ShotLoudness one_pass = shot_loudness(x, kRate_hz).value();
  EXPECT_DOUBLE_EQ(one_pass.loudness_max_sone, fast_max);
  EXPECT_NEAR(one_pass.sharpness_acum.value(), sharpness_acum(fast_sum).value(), 1e-9);
}

TEST(LoudnessTwin, ShotsAtThreeLevels) {
  for (const double gain : {0.03, 1.0, 9.0}) expect_same(shot(gain), 0.005);
}

TEST(LoudnessTwin, DiffuseField) { expect_same(shot(), 0.005, true); }

TEST(LoudnessTwin, Pulses) { expect_same(pulses({{0.014, 0.114, 60}, {0.122, 0.132, 80}}, 0.4), 0.005); }

TEST(LoudnessTwin, ToneOnsetsFromLowToHigh) {
  for (const double frequency_hz : {31.0, 70.0, 120.0, 330.0, 1000.0, 4000.0, 9000.0})
    expect_same(tone(frequency_hz, 80, 0.2, 0.03), 0.005);
}

// The hardest edge there is: on its rise 1 ms long the steps of smoothing show, the maximum agrees.
TEST(LoudnessTwin, OneSample) {
  std::vector<double> x(9600, 0.0);
  x[1500] = 10.0;
  expect_same(x, 0.02);
}

TEST(LoudnessTwin, StationaryLevels) {
  std::mt19937 random(3);
  for (int i = 0; i < 200; ++i) {
    std::array<double, 28> levels;
    for (double& level : levels) level = -20.0 + 150.0 * static_cast<double>(random()) / 4294967296.0;
    for (const bool diffuse : {false, true}) {
      const PlainLoudness::Spectrum slow = plain().stationary(levels, diffuse);
      const StationaryLoudness fast = stationary_loudness(levels, diffuse ? SoundField::diffuse : SoundField::free);
      EXPECT_NEAR(fast.loudness_sone, slow.loudness_sone, 1e-9 * slow.loudness_sone);
      for (std::size_t k = 0; k < kSpecificValues; ++k)
        EXPECT_NEAR(fast.specific_sone_per_bark[k], slow.specific_sone_per_bark[k], 1e-6) << k;
    }
  }
}

}  // namespace
}  // namespace ringfall::signal
