// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/setup_sound.h"

#include <gtest/gtest.h>

#include <cmath>

#include "report/typical_shot.h"
#include "shot/measure.h"
#include "shot/synthetic_shot.h"

namespace ringfall::report {
namespace {

constexpr double kRate_hz = 48000.0;
constexpr double kFullScale_db_spl = 120.0;

/// A dry shot with one tone: 100 Hz, 80 dB at the edge, 60 dB of decay in 300 ms.
shot::Clip clip_of(std::uint64_t number) {
  std::vector<double> pressure_pa(static_cast<std::size_t>(2.0 * kRate_hz));
  shot::add_white_noise(pressure_pa, 30.0, 100 + number);
  shot::SyntheticShot sound;
  sound.tones = {{100.0, 80.0, 0.300}};
  shot::add_synthetic_shot(pressure_pa, kRate_hz, 0.8, sound, number);
  shot::Clip clip;
  clip.samples = shot::to_full_scale(pressure_pa, kFullScale_db_spl);
  clip.sample_rate_hz = kRate_hz;
  clip.onset_sample = std::llround(0.8 * kRate_hz);
  clip.impact_sample = clip.onset_sample + std::llround(sound.impact_lag_s * kRate_hz);
  return clip;
}

TEST(SetUpEar, LaysTheDecayCurvesOverEachOther) {
  const shot::MeasureSettings settings;
  SetUpEar ear("bare", settings);
  for (std::uint64_t number = 1; number <= 3; ++number) {
    const auto clip = clip_of(number);
    ear.add(clip, shot::measure_shot(clip, {}, settings).shot, {});
  }
  const auto sound = ear.sound();
  EXPECT_EQ(sound.decay_a.shots, 3U);
  ASSERT_GT(sound.decay_z.level_db.size(), 100U);
  EXPECT_NEAR(sound.decay_z.level_db.front(), 0.0, 0.1);
}

TEST(SetUpEar, WithoutShotsThereIsNothing) {
  const auto sound = SetUpEar("bare", {}).sound();
  EXPECT_TRUE(sound.decay_a.level_db.empty());
  EXPECT_FALSE(sound.typical);
}

TEST(SetUpEar, AShotWhoseNumbersAreVoidIsLeftOut) {
  SetUpEar ear("bare", {});
  ear.add(clip_of(1), shot::Shot{}, {});
  const auto sound = ear.sound();
  EXPECT_EQ(sound.decay_a.shots, 0U);
}

TEST(TypicalShot, IsTheOneNearestTheMean) {
  compare::Session session;
  session.blocks.resize(3);
  for (auto& block : session.blocks) block.setup = "bare";
  session.blocks[2].dropped = "wind";
  const double hums[] = {1.0, 2.5, 8.0};
  for (std::size_t k = 0; k < 3; ++k) {
    compare::SessionShot entry;
    entry.shot.hum = hums[k];
    session.blocks[k / 2].shots.push_back(entry);
    session.blocks[2].shots.push_back(entry);
  }
  // Mean of 1, 2.5 and 8: 3.83; 2.5 is nearest.
  const auto place = typical_shot(session, "bare", *shot::find_number("hum"));
  ASSERT_TRUE(place);
  EXPECT_EQ(place->block, 0U);
  EXPECT_EQ(place->shot, 1U);
  EXPECT_FALSE(typical_shot(session, "bare", *shot::find_number("ping")));
}

}  // namespace
}  // namespace ringfall::report
