// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/room.h"

#include <gtest/gtest.h>

#include <cmath>

#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

/// Octaves 63 Hz .. 8 kHz, all with one value.
std::vector<std::optional<double>> all_bands(double value_s) { return std::vector<std::optional<double>>(8, value_s); }

TEST(Room, ABowThatRingsLongerThanTheRoomIsNotLimited) {
  const std::vector<RoomEvidence> shots = {{all_bands(0.4), all_bands(0.6)}, {all_bands(0.4), all_bands(0.7)}};
  EXPECT_FALSE(judge_room(shots).has_value());
}

TEST(Room, ABowAsShortAsTheRoomIsLimited) {
  const std::vector<RoomEvidence> shots = {{all_bands(0.5), all_bands(0.5)}, {all_bands(0.5), all_bands(0.55)}};
  const auto finding = judge_room(shots);
  ASSERT_TRUE(finding.has_value());
  EXPECT_EQ(finding->code, "room_limited");
}

TEST(Room, AButtInTheOpenIsNoRoom) {
  const std::vector<RoomEvidence> shots = {{all_bands(0.1), all_bands(0.1)}};
  EXPECT_FALSE(judge_room(shots).has_value());
}

TEST(Room, WithoutAnImpactNothingIsSaid) {
  EXPECT_FALSE(judge_room({}).has_value());
  Clip clip;
  clip.sample_rate_hz = 48000.0;
  clip.samples.assign(96000, 0.0F);
  clip.onset_sample = 38400;
  EXPECT_TRUE(impact_decay_s(clip, MeasureSettings{}).empty());
}

TEST(Room, ReadsADecayOfKnownLengthFromTheImpact) {
  // Decaying white noise after the impact: 60 dB in 0.40 s, in every octave.
  std::vector<double> wave(100000, 0.0);
  std::vector<double> burst(wave.size() - 50000, 0.0);
  add_white_noise(burst, 90.0, 4);
  for (std::size_t n = 0; n < burst.size(); ++n) {
    wave[50000 + n] = burst[n] * std::pow(10.0, -3.0 * static_cast<double>(n) / 48000.0 / 0.40);
  }
  add_white_noise(wave, 20.0, 5);
  Clip clip;
  clip.sample_rate_hz = 48000.0;
  clip.samples = to_full_scale(wave, 120.0);
  clip.onset_sample = 38400;
  clip.impact_sample = 50000;
  const auto decays = impact_decay_s(clip, MeasureSettings{});
  ASSERT_EQ(decays.size(), 8U);
  // 2 kHz and 4 kHz hold enough independent noise for 10 %.
  for (const std::size_t band : {5U, 6U}) {
    ASSERT_TRUE(decays[band].has_value());
    EXPECT_NEAR(*decays[band], 0.40, 0.04);
  }
}

}  // namespace
}  // namespace ringfall::shot
