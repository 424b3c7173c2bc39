// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/tone_pool.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "compare/made_up_clip.h"
#include "shot/measure.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

struct Evening {
  Session session;
  TonePool pool{shot::MeasureSettings{}};

  void shoot(const std::string& setup, const std::vector<shot::Clip>& clips) {
    SessionBlock block;
    block.setup = setup;
    for (const auto& clip : clips) block.shots.push_back({shot::measure_shot(clip, {}, {}).shot, {}});
    session.blocks.push_back(std::move(block));
    const std::size_t place = session.blocks.size() - 1;
    for (std::size_t k = 0; k < clips.size(); ++k) pool.add(session, place, k, clips[k], {});
  }
};

TEST(TonePool, FindsTheToneInThePooledTailsAndReadsItInEachShot) {
  Evening evening;
  evening.shoot("bare", {made_up_clip(1, {{100.0, 80.0, 0.3}}), made_up_clip(2, {{100.0, 80.0, 0.3}}), made_up_clip(3, {{100.0, 80.0, 0.3}})});
  const auto single = evening.session;
  const auto tones = evening.pool.read(evening.session);
  ASSERT_EQ(tones.size(), 1U);
  EXPECT_EQ(tones[0].setup, "bare");
  EXPECT_EQ(tones[0].tails, 3U);
  ASSERT_FALSE(tones[0].tones.empty());
  const auto& tone = tones[0].tones.front();
  EXPECT_NEAR(tone.tone.frequency_hz, 100.0, 1.0);
  EXPECT_NEAR(tone.tone.ring_time_s, 0.300, 0.030);
  // 80 dB at the edge less 60 dB / 300 ms for the 30 ms to the tail, less 120 dB as nothing is calibrated.
  EXPECT_NEAR(tone.tone.level_db, 80.0 - 6.0 - 120.0, 1.0);
  ASSERT_EQ(tone.readings.size(), 3U);
  for (const auto& reading : tone.readings) {
    EXPECT_NEAR(reading.level_db, -46.0, 2.0);
    EXPECT_NEAR(reading.ring_time_s.value(), 0.300, 0.030);
  }
  EXPECT_FALSE(tones[0].tail.frequency_hz.empty());
  EXPECT_TRUE(std::ranges::is_sorted(tones[0].tail.frequency_hz));
  for (std::size_t k = 0; k < 3; ++k) {
    const auto& pooled = evening.session.blocks[0].shots[k].shot;
    // A strong tone reads the same alone and pooled.
    EXPECT_NEAR(pooled.hum.value(), single.blocks[0].shots[k].shot.hum.value(), 0.3);
    EXPECT_NEAR(pooled.hum_parts.pitch_hz.value(), 100.0, 1.0);
    EXPECT_NEAR(pooled.hum_parts.strength_db.value(), -46.0, 2.0);
  }
}

// The same sound, once without a calibration, once with a full scale of 130 dB: the set-up's tone and tail are those of the calibrated shots,
// 80 - 6 + 10 dB at the tail's start; each reading keeps its scale.
TEST(TonePool, LevelsOfTwoScalesHaveNoMean) {
  const std::vector<shot::Clip> clips = {made_up_clip(1, {{100.0, 80.0, 0.3}}), made_up_clip(2, {{100.0, 80.0, 0.3}})};
  const shot::Scale calibrated{130.0};
  Session session;
  TonePool pool{shot::MeasureSettings{}};
  TonePool alone{shot::MeasureSettings{}};
  for (const auto& scale : {shot::Scale{}, calibrated}) {
    SessionBlock block;
    block.session = static_cast<int>(session.blocks.size()) + 1;
    block.setup = "bare";
    for (const auto& clip : clips) block.shots.push_back({shot::measure_shot(clip, scale, {}).shot, {}});
    session.blocks.push_back(block);
    for (std::size_t k = 0; k < clips.size(); ++k) pool.add(session, session.blocks.size() - 1, k, clips[k], scale);
  }
  for (std::size_t k = 0; k < clips.size(); ++k) alone.add(session, 1, k, clips[k], calibrated);
  Session calibrated_only = session;
  const auto expected = alone.read(calibrated_only);
  const auto tones = pool.read(session);
  ASSERT_FALSE(tones[0].tones.empty());
  EXPECT_EQ(tones[0].tails, 4U);
  EXPECT_NEAR(tones[0].tones[0].tone.level_db, 84.0, 1.0);
  ASSERT_EQ(tones[0].tones[0].readings.size(), 4U);
  EXPECT_NEAR(tones[0].tones[0].readings[0].level_db, 84.0 - 130.0, 2.0);
  EXPECT_NEAR(tones[0].tones[0].readings[3].level_db, 84.0, 2.0);
  EXPECT_EQ(tones[0].tail.density_db, expected[0].tail.density_db);
}

// Pings a little over the noise scatter less when they are found once for all shots (figures: docs/measures/comparison.md#pooled). What a
// single shot may hide the pool may hear.
TEST(TonePool, PoolingSteadiesAWeakTone) {
  Evening evening;
  std::vector<shot::Clip> clips;
  for (std::uint64_t k = 1; k <= 10; ++k) {
    clips.push_back(made_up_clip(k, {{1450.0, 62.0, 0.15}, {3200.0, 58.0, 0.10}, {170.0, 62.0, 0.2}, {95.0, 64.0, 0.25}}));
  }
  evening.shoot("bare", clips);
  const auto pings = [&] {
    std::vector<double> values;
    for (const auto& entry : evening.session.blocks[0].shots) {
      if (entry.shot.ping) values.push_back(*entry.shot.ping);
    }
    return values;
  };
  const auto alone = pings();
  ASSERT_GE(alone.size(), 6U);
  evening.pool.read(evening.session);
  ASSERT_GE(pings().size(), alone.size());
  EXPECT_LT(stats::standard_deviation(pings()).value(), 0.85 * stats::standard_deviation(alone).value());
}

TEST(TonePool, WhatASingleShotVoidedStaysMissing) {
  Evening evening;
  evening.shoot("bare", {made_up_clip(1, {{100.0, 80.0, 0.3}}), made_up_clip(2, {{100.0, 80.0, 0.3}})});
  evening.session.blocks[0].shots[0].shot.hum.reset();
  evening.session.blocks[0].shots[0].shot.ping.reset();
  EXPECT_FALSE(TonePool::wants(evening.session, 0, 0));
  EXPECT_TRUE(TonePool::wants(evening.session, 0, 1));
  TonePool pool{shot::MeasureSettings{}};
  for (std::uint64_t k = 0; k < 2; ++k) pool.add(evening.session, 0, k, made_up_clip(k + 1, {{100.0, 80.0, 0.3}}), {});
  EXPECT_EQ(pool.read(evening.session).at(0).tails, 1U);
  EXPECT_FALSE(evening.session.blocks[0].shots[0].shot.hum);
  EXPECT_TRUE(evening.session.blocks[0].shots[1].shot.hum);
}

/// A masked score is one that a single shot could not tell; the pool can. Any other reason stays one.
TEST(TonePool, HearsWhatMayHideInOneShot) {
  Evening evening;
  std::vector<shot::Clip> clips;
  for (std::uint64_t k = 1; k <= 3; ++k) clips.push_back(made_up_clip(k, {{100.0, 80.0, 0.3}}));
  evening.shoot("bare", clips);
  auto& shots = evening.session.blocks[0].shots;
  const Finding masked{"tail_masked", Severity::void_, {Quantity::hum}, "may hide"};
  const Finding clipped{"clipped", Severity::void_, {Quantity::hum}, "clipped"};
  const double alone = shots[0].shot.hum.value();
  shots[0].shot.hum.reset();
  shots[0].shot.findings = {masked};
  shots[1].shot.hum.reset();
  shots[1].shot.findings = {masked, clipped};
  TonePool pool{shot::MeasureSettings{}};
  for (std::size_t k = 0; k < 3; ++k) pool.add(evening.session, 0, k, clips[k], {});
  const auto tones = pool.read(evening.session);
  ASSERT_EQ(tones.at(0).tones.size(), 1U);
  EXPECT_EQ(tones[0].tones[0].readings.size(), 3U);
  EXPECT_NEAR(shots[0].shot.hum.value(), alone, 0.3);
  EXPECT_TRUE(shots[0].shot.findings.empty()) << "it is told now";
  EXPECT_FALSE(shots[1].shot.hum) << "clipped as well";
  EXPECT_EQ(shots[1].shot.findings.size(), 2U);
}

/// The pool is no help against the noise of the shot itself: what rings below it is not read as silence, nor noise as a ring.
TEST(TonePool, AShotsOwnNoiseStillHides) {
  Evening evening;
  std::vector<shot::Clip> clips;
  for (std::uint64_t k = 1; k <= 5; ++k) clips.push_back(made_up_clip(k, {{100.0, 70.0, 0.3}}, k == 1 ? 100.0 : 30.0));
  evening.shoot("bare", clips);
  const auto& first = evening.session.blocks[0].shots[0].shot;
  ASSERT_FALSE(first.hum);
  ASSERT_TRUE(has_finding(first.findings, "tail_masked"));
  EXPECT_TRUE(TonePool::wants(evening.session, 0, 0));
  ASSERT_FALSE(evening.pool.read(evening.session).at(0).tones.empty());
  EXPECT_FALSE(first.hum);
  EXPECT_TRUE(has_finding(first.findings, "tail_masked"));
  EXPECT_TRUE(evening.session.blocks[0].shots[1].shot.hum);
}

TEST(TonePool, ShotsOfAnotherSampleRateAreReadToo) {
  Evening evening;
  evening.shoot("bare", {made_up_clip(1, {{100.0, 80.0, 0.3}}), made_up_clip(2, {{100.0, 80.0, 0.3}}),
                         made_up_clip(3, {{100.0, 80.0, 0.3}}, 30.0, 44100.0)});
  const auto tones = evening.pool.read(evening.session);
  ASSERT_FALSE(tones.at(0).tones.empty());
  EXPECT_EQ(tones[0].tones.front().readings.size(), 3U);
}

// One list for both: the tone that only 'bare' has is looked for in 'plug' too, where each shot says how strong it can be at most; the common one
// is read in both.
TEST(TonePool, OneListForAllSetUps) {
  Evening evening;
  std::vector<shot::Clip> bare;
  std::vector<shot::Clip> plug;
  for (std::uint64_t k = 1; k <= 3; ++k) {
    bare.push_back(made_up_clip(k, {{100.0, 80.0, 0.3}, {1450.0, 72.0, 0.15}}));
    plug.push_back(made_up_clip(k + 3, {{100.0, 80.0, 0.3}}));
  }
  evening.shoot("bare", bare);
  evening.shoot("plug", plug);
  const auto tones = evening.pool.read(evening.session);
  ASSERT_EQ(tones.size(), 2U);
  const auto at = [](const std::vector<SetUpTone>& list, double hz) {
    return std::ranges::find_if(list, [hz](const SetUpTone& tone) { return std::abs(tone.tone.frequency_hz / hz - 1.0) < 0.01; });
  };
  ASSERT_NE(at(tones[0].tones, 1450.0), tones[0].tones.end());
  EXPECT_NE(at(tones[1].tones, 100.0), tones[1].tones.end());
  // Noise at its place may be read here and there, far below; where it is not, the shot would have let the tone through.
  const double bare_db = at(tones[0].tones, 1450.0)->tone.level_db;
  std::size_t shots = 0;
  for (const auto* list : {&tones[1].tones, &tones[1].silent}) {
    const auto found = at(*list, 1450.0);
    if (found == list->end()) continue;
    shots += found->readings.size() + found->hidden.size();
    for (const auto& reading : found->readings) EXPECT_LT(reading.level_db, bare_db - 15.0);
    for (const auto& hidden : found->hidden) EXPECT_LT(hidden.at_most_db.value(), bare_db - 6.0);
  }
  EXPECT_EQ(shots, 3U) << "each shot says something of it";
  for (const auto& entry : evening.session.blocks[1].shots) EXPECT_LT(entry.shot.ping.value(), 1.2);
}

TEST(TonePool, NothingInNothingOut) {
  Session session;
  EXPECT_TRUE(TonePool(shot::MeasureSettings{}).read(session).empty());
}

}  // namespace
}  // namespace ringfall::compare
