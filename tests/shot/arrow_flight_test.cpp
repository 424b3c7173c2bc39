// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/arrow_flight.h"

#include <gtest/gtest.h>

#include <array>

#include "base/units.h"
#include "shot/impact_window.h"

namespace ringfall::shot {
namespace {

constexpr std::array<double, 8> kSpeeds_m_s{45, 50, 55, 60, 70, 80, 90, 100};

struct Row {
  double distance_m;
  std::array<double, 8> lag_ms;
};

// (D - 0.5)/v + D/343.2 worked out by hand to the millisecond, 20 degrees Celsius.
constexpr std::array<Row, 6> kTable{{{3, {64, 59, 54, 50, 44, 40, 37, 34}},
                                     {5, {115, 105, 96, 90, 79, 71, 65, 60}},
                                     {10, {240, 219, 202, 187, 165, 148, 135, 124}},
                                     {18, {441, 402, 371, 344, 302, 271, 247, 227}},
                                     {20, {492, 448, 413, 383, 337, 302, 275, 253}},
                                     {30, {743, 677, 624, 579, 509, 456, 415, 382}}}};

TEST(ArrowFlight, LagTable) {
  for (const Row& row : kTable) {
    for (std::size_t k = 0; k < kSpeeds_m_s.size(); ++k) {
      EXPECT_NEAR(impact_lag_s(row.distance_m, kSpeeds_m_s[k], 20.0), 1e-3 * row.lag_ms[k], 0.51e-3)
          << row.distance_m << " m, " << kSpeeds_m_s[k] << " m/s";
    }
  }
}

// 18 m and 344 ms: 17.5 m / (0.344 s - 18 m / 343.2 m/s) = 60.0 m/s.
TEST(ArrowFlight, SpeedFromLag) {
  EXPECT_NEAR(arrow_speed_m_s(18.0, 0.344, 20.0).value(), 60.03, 0.01);
  for (const double distance_m : {3.0, 18.0, 70.0}) {
    for (const double speed_m_s : kSpeeds_m_s) {
      const double lag_s = impact_lag_s(distance_m, speed_m_s, 5.0);
      EXPECT_NEAR(arrow_speed_m_s(distance_m, lag_s, 5.0).value(), speed_m_s, 1e-9);
    }
  }
}

// No arrow arrives before its sound's way back, nor at less than its own length.
TEST(ArrowFlight, NoAnswer) {
  EXPECT_FALSE(arrow_speed_m_s(18.0, 0.050, 20.0).has_value());
  EXPECT_FALSE(arrow_speed_m_s(0.5, 0.100, 20.0).has_value());
}

// Dry air, 343.2 sqrt(T / 293.15 K) (ISO 9613-1:1993 A.5), by hand to 0.1 m/s.
TEST(ArrowFlight, SpeedOfSound) {
  EXPECT_NEAR(sound_speed_m_s(-10.0), 325.2, 0.06);
  EXPECT_NEAR(sound_speed_m_s(0.0), 331.3, 0.06);
  EXPECT_NEAR(sound_speed_m_s(10.0), 337.3, 0.06);
  EXPECT_NEAR(sound_speed_m_s(20.0), 343.2, 0.06);
  EXPECT_NEAR(sound_speed_m_s(35.0), 351.9, 0.06);
}

TEST(ImpactWindow, NarrowsWithWhatIsKnown) {
  const auto open = impact_window({});
  EXPECT_LE(open.earliest_s, 0.034);  // 3 m at 100 m/s
  EXPECT_GE(open.latest_s, 1.6);      // 70 m at 50 m/s: 1.59 s
  FindSettings settings;
  settings.distance_m = 18.0;
  const auto distance = impact_window(settings);
  settings.arrow_speed_m_s = 60.0;
  const auto both = impact_window(settings);
  EXPECT_LT(distance.earliest_s, 0.227);  // 100 m/s
  EXPECT_GT(distance.latest_s, 0.441);    // 45 m/s
  EXPECT_GT(both.earliest_s, distance.earliest_s);
  EXPECT_LT(both.latest_s, distance.latest_s);
  EXPECT_LT(both.earliest_s, 0.344);
  EXPECT_GT(both.latest_s, 0.344);
}

}  // namespace
}  // namespace ringfall::shot
