// SPDX-License-Identifier: GPL-3.0-or-later
// A tone at the limit of what the thump lets through: found, or "can't be told", but not "listened, none"; and silence
// stays silence. The tones are made up, so the truth is known; the limits below are this project's own.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "shot/ladder_shots.h"

namespace ringfall::shot::testing {
namespace {

/// An average bow whose tones die twice as fast: its hum (3.5 by the closed form) is just about to drown in the thump.
Scene drowning() {
  Scene scene = scene_of(kAverageTones);
  for (SyntheticTone& tone : scene.shot.tones) tone.ring_time_s *= 0.5;
  return scene;
}

RingScore hum_of(const std::vector<double>& sound, const Scene& scene) {
  const MeasureSettings settings;
  const TailTones heard =
      find_tones(cut_tail(sound, scene.rate_hz, kOnset_s * scene.rate_hz, scene.tail_end_s, settings), settings);
  return ring_score(ToneFamily::hum, heard.tones, heard, settings);
}

/// What a lossy coder does to a sound, roughly: noise 18 dB under it that follows its level within some 20 ms.
std::vector<double> recoded(std::vector<double> sound, std::uint32_t seed) {
  constexpr std::size_t kBlock = 1024;
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  for (std::size_t begin = 0; begin < sound.size(); begin += kBlock) {
    const std::size_t end = std::min(sound.size(), begin + kBlock);
    double sum = 0.0;
    for (std::size_t n = begin; n < end; ++n) sum += sound[n] * sound[n];
    const double rms = std::sqrt(sum / static_cast<double>(end - begin));
    for (std::size_t n = begin; n < end; ++n) sound[n] += 0.125 * rms * normal(random);
  }
  return sound;
}

TEST(ToneDoubt, RecodingNeverTurnsAHumIntoSilence) {
  const Scene scene = drowning();
  int scored = 0;
  for (int seed = 1; seed <= 24; ++seed) {
    const auto sound = sound_of(scene, static_cast<std::uint64_t>(seed));
    const RingScore before = hum_of(sound, scene);
    for (std::uint32_t coder = 1; coder <= 4; ++coder) {
      const RingScore after = hum_of(recoded(sound, coder), scene);
      if (!before.score || !after.score) continue;
      ++scored;
      EXPECT_LT(std::abs(*after.score - *before.score), 1.0) << seed << ' ' << coder;
    }
  }
  EXPECT_GT(scored, 24);  // a null everywhere would be no answer
}

TEST(ToneDoubt, ADrowningHumIsSeldomCalledSilence) {
  int silent = 0, masked = 0;
  for (int seed = 1; seed <= 40; ++seed) {
    const RingScore hum = hear(drowning(), static_cast<std::uint64_t>(seed)).hum;
    silent += hum.score && *hum.score <= 0.3;
    masked += hum.masked;
  }
  EXPECT_LE(silent, 10);  // 26 of 40 without a word for doubt
  EXPECT_GE(masked, 10);
}

TEST(ToneDoubt, SilenceStaysSilence) {
  int scored = 0, shots = 0;
  for (const double floor_db : {25.0, 35.0, 45.0}) {
    for (int seed = 101; seed <= 140; ++seed, ++shots) {
      Scene scene;
      scene.floor_db = floor_db;
      const Heard heard = hear(scene, static_cast<std::uint64_t>(seed));
      scored += heard.hum.score && heard.ping.score;
      EXPECT_LE(heard.hum.score.value_or(0.0), 0.3) << seed;
      EXPECT_LE(heard.ping.score.value_or(0.0), 0.3) << seed;
    }
  }
  EXPECT_GE(scored, shots * 9 / 10);
}

TEST(ToneDoubt, APlainToneIsNoDoubt) {
  for (int seed = 1; seed <= 20; ++seed) {
    const Heard heard = hear(scene_of(kRingingTones), static_cast<std::uint64_t>(seed));
    EXPECT_TRUE(heard.hum.score && heard.ping.score) << seed;
  }
}

}  // namespace
}  // namespace ringfall::shot::testing
