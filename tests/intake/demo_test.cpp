// SPDX-License-Identifier: GPL-3.0-or-later
// The invented evening is what it says that it is.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "audio/sound_writer.h"
#include "intake/demo_evening.h"
#include "intake/recording.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

struct Means {
  double exposure_db = 0.0;
  double hum = 0.0;
  double ping = 0.0;
};

/// Measured means of many shots of one kind, each with noise of its own, none with luck.
Means measured(const TestFolder& folder, const shot::SyntheticShot& sound, std::uint64_t seed) {
  constexpr int kShots = 12;
  std::vector<double> pressure_pa(static_cast<std::size_t>((2.0 + kShots * kDemoSpacing_s) * kDemoRate_hz), 0.0);
  shot::add_white_noise(pressure_pa, kDemoFloor_db, seed);
  for (int k = 0; k < kShots; ++k) {
    shot::add_synthetic_shot(pressure_pa, kDemoRate_hz, 2.0 + kDemoSpacing_s * k, sound, seed * 100 + static_cast<std::uint64_t>(k));
  }
  const auto wav = folder.path("one.wav");
  audio::write_wav(wav, shot::to_full_scale(pressure_pa, kDemoFullScale_db_spl), kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  const auto recording = measure_recording(wav, {});
  EXPECT_EQ(recording.shots.size(), static_cast<std::size_t>(kShots));
  Means means;
  for (const auto& shot : recording.shots) {
    means.exposure_db += shot.levels.exposure_db.value_or(NAN) / kShots;
    means.hum += shot.hum.value_or(NAN) / kShots;
    means.ping += shot.ping.value_or(NAN) / kShots;
  }
  return means;
}

TEST(Demo, WhatItCallsTrueIsTrueOfItsSound) {
  const TestFolder folder;
  const auto shots = demo_true_shots();
  const auto& truths = demo_truths();
  ASSERT_EQ(shots.size(), truths.size());
  std::vector<Means> all;
  for (std::size_t k = 0; k < shots.size(); ++k) all.push_back(measured(folder, shots[k], 40));  // the same noise: nothing but the set-up differs
  for (std::size_t k = 0; k < shots.size(); ++k) {
    EXPECT_NEAR(all[k].exposure_db - all[0].exposure_db, truths[k].quieter_db, 0.2) << truths[k].setup;
    EXPECT_NEAR(all[k].hum, truths[k].hum, 0.3) << truths[k].setup;
    EXPECT_NEAR(all[k].ping, truths[k].ping, 0.3) << truths[k].setup;
  }
}

TEST(Demo, BlocksGoThereAndBackTwiceAndTheDummyWeighsTheSame) {
  const auto blocks = demo_blocks();
  std::string order;
  std::set<double> masses;
  for (const auto& block : blocks) {
    EXPECT_EQ(block.shots.size(), 3U);
    if (!block.dropped.empty()) continue;
    order += block.setup == "bare" ? 'A' : block.setup == "clay ring" ? 'B' : 'C';
    EXPECT_EQ(block.added_mass_kg.has_value(), block.setup != "bare");
    if (block.added_mass_kg) masses.insert(*block.added_mass_kg);
  }
  EXPECT_EQ(order, "ABCCBAABCCBA");
  EXPECT_EQ(masses.size(), 1U) << "a dummy of equal mass";
  EXPECT_FALSE(blocks.back().dropped.empty()) << "one faulty recording";
}

}  // namespace
}  // namespace ringfall::intake
