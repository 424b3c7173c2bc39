// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/critical_band.h"

#include <gtest/gtest.h>

#include <cmath>

namespace ringfall::signal {
namespace {

// ECMA-418-1 (ECMA-74 annex D), examples printed with the formula, as transcribed in open test data.
TEST(CriticalBand, PrintedExamples) {
  EXPECT_NEAR(critical_bandwidth_hz(500), 117.3, 0.05);
  EXPECT_NEAR(critical_bandwidth_hz(1000), 162.2, 0.05);
  EXPECT_NEAR(critical_band(1000).low_hz, 922.2, 0.05);
  EXPECT_NEAR(critical_band(1000).high_hz, 1084.4, 0.05);
}

// The same source, "if the tones are closer than": 23 Hz at 150 Hz, 63.8 Hz at 850 Hz.
TEST(CriticalBand, ProximityExamples) {
  EXPECT_NEAR(tone_proximity_hz(150), 23.0, 0.05);
  EXPECT_NEAR(tone_proximity_hz(850), 63.8, 0.05);
  EXPECT_DOUBLE_EQ(tone_proximity_hz(212), 21.0);
}

TEST(CriticalBand, EdgesFollowTheirDefinition) {
  const FrequencyBand low = critical_band(300);  // below 500 Hz the middle
  EXPECT_NEAR(0.5 * (low.low_hz + low.high_hz), 300, 1e-9);
  const FrequencyBand high = critical_band(3000);  // above, the geometric mean
  EXPECT_NEAR(std::sqrt(high.low_hz * high.high_hz), 3000, 1e-9);
  EXPECT_NEAR(high.width_hz(), critical_bandwidth_hz(3000), 1e-9);
}

// The neighbours' outer edges are polynomials fitted in the standard to bands that touch: the neighbour's centre,
// found by bisection so that its inner edge touches, must give nearly the same outer edge. Fit error as seen: 1.5 % of the edge.
TEST(CriticalBand, NeighboursAreCriticalBandsThatTouch) {
  for (const double f : {200.0, 400.0, 800.0, 1500.0, 1700.0, 4000.0, 9000.0}) {
    double low = f, high = 2 * f + 200;
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (low + high);
      (critical_band(middle).low_hz < critical_band(f).high_hz ? low : high) = middle;
    }
    EXPECT_NEAR(critical_band_above(f).high_hz / critical_band(low).high_hz, 1.0, 0.015) << f;
    EXPECT_DOUBLE_EQ(critical_band_above(f).low_hz, critical_band(f).high_hz);
    low = 1, high = f;
    for (int i = 0; i < 60; ++i) {
      const double middle = 0.5 * (low + high);
      (critical_band(middle).high_hz < critical_band(f).low_hz ? low : high) = middle;
    }
    EXPECT_NEAR(critical_band_below(f).low_hz / critical_band(low).low_hz, 1.0, f < 300 ? 0.1 : 0.015) << f;
    EXPECT_DOUBLE_EQ(critical_band_below(f).high_hz, critical_band(f).low_hz);
  }
  EXPECT_DOUBLE_EQ(critical_band_below(150).low_hz, 20.0);
}

}  // namespace
}  // namespace ringfall::signal
