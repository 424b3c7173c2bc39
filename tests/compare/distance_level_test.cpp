// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/distance_level.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/units.h"
#include "compare/made_up_clip.h"
#include "compare/made_up_session.h"

namespace ringfall::compare {
namespace {

/// Blocks of a set-up, each of a session of its own; the clip of shot k of block b is clips[b][k].
struct Shots {
  Session session;
  std::vector<std::vector<ScaledClip>> clips;
  int asked = 0;

  void add(std::optional<double> full_scale_db_spl, const std::vector<double>& exposures, double rate_hz = 48000.0, double noise_db = 60.0) {
    const int number = static_cast<int>(session.blocks.size()) + 1;
    session.blocks.push_back(exposure_block("bare", number, exposures, number));
    session.blocks.back().facts.calibrated = full_scale_db_spl.has_value();
    clips.emplace_back();
    for (std::size_t k = 0; k < exposures.size(); ++k) {
      clips.back().push_back({made_up_clip(k, {{95.0, 78.0, 0.3}}, noise_db, rate_hz), {full_scale_db_spl}});
    }
  }
  LevelAtMark level() {
    return level_at_mark(session, "bare", {}, [&](std::size_t block, std::size_t shot) {
             ++asked;
             return std::optional(clips[block][shot]);
           }).value();
  }
  double octave(double nominal_hz) {
    for (const auto& band : level().octaves) {
      if (band.nominal_hz == nominal_hz) return band.level_db;
    }
    return std::nan("");
  }
};

// The same sound on two scales: -120 dB re full scale and +120 dB apart have no mean; the calibrated ones are taken.
TEST(DistanceLevel, CalibratedShotsOnlyWhenThereAreAny) {
  Shots shots;
  shots.add(std::nullopt, {-44.0, -45.0, -46.0});
  const auto uncalibrated = shots.level();
  EXPECT_FALSE(uncalibrated.calibrated);
  EXPECT_EQ(uncalibrated.shots, 3U);
  EXPECT_NEAR(uncalibrated.deviation_db.value(), 1.0, 1e-12);  // of -44, -45, -46
  const double full_scale_125_db = shots.octave(125.0);
  EXPECT_LT(full_scale_125_db, 0.0);
  shots.add(120.0, {74.0, 76.0, 78.0});
  const auto both = shots.level();
  EXPECT_TRUE(both.calibrated);
  EXPECT_EQ(both.shots, 3U);
  EXPECT_EQ(both.other_scale, 3U);
  EXPECT_NEAR(both.deviation_db.value(), 2.0, 1e-12);  // of 74, 76, 78
  EXPECT_NEAR(shots.octave(125.0), full_scale_125_db + 120.0, 1e-6);
}

TEST(DistanceLevel, AllShotsAndOnlyThoseThatCount) {
  Shots shots;
  shots.add(120.0, {70.0, 71.0});
  shots.add(120.0, {80.0, 82.0});
  shots.session.blocks[1].shots[1].shot.arrow_speed_m_s = 60.0;
  shots.asked = 0;
  const auto all = shots.level();
  EXPECT_EQ(shots.asked, 4);
  // Of 70, 71, 80, 82: mean 75.75; squares 33.0625 + 22.5625 + 18.0625 + 39.0625 = 112.75, a third of it is 37.583.
  EXPECT_NEAR(all.deviation_db.value(), std::sqrt(112.75 / 3.0), 1e-12);
  EXPECT_EQ(all.arrow_speed_m_s, 60.0);
  shots.session.blocks[1].dropped = "wind";
  shots.session.blocks[0].shots[0].shot.levels.exposure_db.reset();
  const auto one = shots.level();
  EXPECT_EQ(one.shots, 1U);
  EXPECT_FALSE(one.deviation_db);
  EXPECT_FALSE(level_at_mark(shots.session, "bare", {}, [](std::size_t, std::size_t) { return std::optional<ScaledClip>(); }));
  EXPECT_EQ(level_at_mark(shots.session, "other", {}, [](std::size_t, std::size_t) { return std::optional<ScaledClip>(); })->shots, 0U);
}

// White noise of 100 dB over 24 kHz, far above the shot: an octave of width B holds 100 + 10 lg(B / 24000) dB, over 0.302 s another
// 10 lg(0.302). The octave at 16 kHz runs from 11.2 to 22.4 kHz (IEC 61260-1: 10^(0.3 x) kHz, a half octave either way): 91.5 dB.
TEST(DistanceLevel, SixteenKilohertzWhereTheRateHoldsIt) {
  Shots shots;
  shots.add(120.0, {74.0}, 48000.0, 100.0);
  EXPECT_NEAR(shots.octave(16000.0), 100.0 + 10.0 * std::log10(11193.0 / 24000.0 * 0.302), 0.3);
  // One of another rate holds no octave above 8 kHz: then there is none in the mean.
  shots.add(120.0, {74.0}, 32000.0);
  EXPECT_TRUE(std::isnan(shots.octave(16000.0)));
  EXPECT_FALSE(std::isnan(shots.octave(8000.0)));
}

}  // namespace
}  // namespace ringfall::compare
