// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/shot_loudness.h"

#include <gtest/gtest.h>

#include "signal/loudness_signals.h"

namespace ringfall::signal {
namespace {

using namespace test_sounds;

// That the one pass equals time_varying_loudness and sharpness_acum is in loudness_twin_test.cpp.

// ISO 532-1:2017 Annex B.4, test signal 10: maximum 4.2998 sone, as transcribed in open test data; 5 % or 0.1 sone.
TEST(ShotLoudness, MaximumOfAPulse) {
  const ShotLoudness loudness = shot_loudness(pulses({{0.014, 0.024, 70}}, 0.36), kRate_hz).value();
  EXPECT_NEAR(loudness.loudness_max_sone, 4.2998, 0.215);
  // DIN 45692:2009 Table A.2: 1 acum at 1 kHz.
  EXPECT_NEAR(loudness.sharpness_acum.value(), 1.0, 0.05);
}

TEST(ShotLoudness, QuietBeforeTheEdgeChangesNothing) {
  const std::vector<double> x = shot(1.0, 0.330, 0.030);
  const ShotLoudness alone = shot_loudness(x, kRate_hz).value();
  for (const double floor_db : {-100.0, 20.0}) {
    std::vector<double> led = tone(1000.0, floor_db, 0.096);
    led.insert(led.end(), x.begin(), x.end());
    const ShotLoudness later = shot_loudness(led, kRate_hz).value();
    EXPECT_NEAR(later.loudness_max_sone, alone.loudness_max_sone, 0.002 * alone.loudness_max_sone) << floor_db;
    EXPECT_NEAR(later.sharpness_acum.value(), alone.sharpness_acum.value(), 0.002) << floor_db;
  }
}

TEST(ShotLoudness, SilenceIsNotSharp) {
  const ShotLoudness loudness = shot_loudness(std::vector<double>(17280, 0.0), kRate_hz).value();
  EXPECT_EQ(loudness.loudness_max_sone, 0.0);
  EXPECT_FALSE(loudness.sharpness_acum);
}

TEST(ShotLoudness, TooShort) {
  EXPECT_FALSE(shot_loudness({}, kRate_hz));
  EXPECT_FALSE(shot_loudness(std::vector<double>(479, 0.1), kRate_hz));
  EXPECT_TRUE(shot_loudness(std::vector<double>(480, 0.1), kRate_hz));
}

}  // namespace
}  // namespace ringfall::signal
