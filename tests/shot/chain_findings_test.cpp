// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/chain_findings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "shot/chain_evidence.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

// Every sound here is synthetic. Faults are made as trade practice describes them (common practice, no source).

constexpr double kRate_hz = 48000.0;
constexpr double kEdge_s = 0.8;
constexpr std::size_t kLength = 96000;

struct Making {
  double floor_db = 45.0;
  double gain_db = 0.0;
  double rumble_db = 0.0;  ///< extra level below 100 Hz; 0: none
};

std::vector<double> shot_pa(std::uint64_t seed, const Making& how) {
  std::vector<double> wave(kLength, 0.0);
  add_white_noise(wave, how.floor_db, seed + 1000);
  SyntheticShot shot;
  shot.edge_peak_db = 105.0 + how.gain_db;
  shot.thump_db = 96.0 + how.gain_db;
  shot.impact_lag_s = 0.30;
  shot.tones = {{96.0, 76.0 + how.gain_db, 0.3}, {1460.0, 70.0 + how.gain_db, 0.15}};
  add_synthetic_shot(wave, kRate_hz, kEdge_s, shot, seed);
  for (std::size_t n = 0; how.rumble_db > 0.0 && n < wave.size(); ++n) {
    wave[n] += 2e-5 * std::pow(10.0, how.rumble_db / 20.0) * std::sin(0.0052 * static_cast<double>(n) + static_cast<double>(seed)) *
               std::sin(0.0013 * static_cast<double>(n));
  }
  return wave;
}

Clip clip_of(const std::vector<double>& wave) {
  Clip clip;
  clip.samples = to_full_scale(wave, 118.0);
  clip.sample_rate_hz = kRate_hz;
  clip.onset_sample = static_cast<std::int64_t>(kEdge_s * kRate_hz);
  clip.impact_sample = clip.onset_sample + static_cast<std::int64_t>(0.30 * kRate_hz);
  return clip;
}

ChainEvidence evidence_of(const std::vector<double>& wave) { return chain_evidence(clip_of(wave), MeasureSettings{}); }

std::vector<ChainEvidence> session(const Making& how, std::size_t shots) {
  std::vector<ChainEvidence> all;
  for (std::size_t k = 0; k < shots; ++k) {
    Making one = how;
    one.gain_db += 1.5 * std::sin(2.0 * static_cast<double>(k));  // an archer's own spread
    all.push_back(evidence_of(shot_pa(50 + k, one)));
  }
  return all;
}

std::vector<Finding> recording_findings(const std::vector<ChainEvidence>& shots) {
  return chain_findings(shots, {kRate_hz, false}).recording;
}

/// First-order low-pass run four times forward: a steep voice-path cut.
void cut_above(std::vector<double>& wave, double corner_hz) {
  const double keep = std::exp(-2.0 * 3.14159265 * corner_hz / kRate_hz);
  for (int pass = 0; pass < 16; ++pass) {
    double state = 0.0;
    for (double& value : wave) value = state = keep * state + (1.0 - keep) * value;
  }
}

void cut_below(std::vector<double>& wave, double corner_hz) {
  const double keep = std::exp(-2.0 * 3.14159265 * corner_hz / kRate_hz);
  for (int pass = 0; pass < 3; ++pass) {
    double low = 0.0;
    for (double& value : wave) {
      low = keep * low + (1.0 - keep) * value;
      value -= low;
    }
  }
}

TEST(ChainFindings, CleanRecordingsHaveNone) {
  for (const double floor_db : {30.0, 45.0, 55.0}) {
    const auto all = chain_findings(session({.floor_db = floor_db}, 8), {kRate_hz, false});
    for (const auto& finding : all.recording) ADD_FAILURE() << floor_db << ": " << finding.sentence;
    for (const auto& shot : all.per_shot) EXPECT_TRUE(shot.empty());
  }
}

TEST(ChainFindings, NothingComesOfNoShots) {
  EXPECT_TRUE(chain_findings({}, {kRate_hz, false}).recording.empty());
}

TEST(ChainFindings, EqualPeaksOverUnequalTailsAreALimiter) {
  auto shots = session({}, 6);
  EXPECT_FALSE(has_finding(recording_findings(shots), "limited"));
  for (auto& shot : shots) shot.peak_db = -1.0;
  EXPECT_TRUE(has_finding(recording_findings(shots), "limited"));
}

TEST(ChainFindings, ThreeEqualPeaksAreALimiterButCopiesOfOneSoundAreNot) {
  auto shots = session({}, 3);
  for (auto& shot : shots) shot.peak_db = -1.0;
  const auto findings = recording_findings(shots);
  EXPECT_TRUE(has_finding(findings, "limited"));
  EXPECT_TRUE(voided(findings, Quantity::ring_down)) << "counted from the peak";
  for (auto& shot : shots) shot.tail_level_db = -40.0;
  EXPECT_FALSE(has_finding(recording_findings(shots), "limited"));
}

TEST(ChainFindings, APeakAtTheCeilingOfACodedFileWasClippedBefore) {
  auto shots = session({}, 3);
  shots[1].peak_db = 0.4;
  const auto coded = chain_findings(shots, {kRate_hz, true});
  EXPECT_FALSE(has_finding(coded.per_shot[0], "clipped"));
  EXPECT_TRUE(voided(coded.per_shot[1], Quantity::levels));
  EXPECT_FALSE(has_finding(chain_findings(shots, {kRate_hz, false}).per_shot[1], "clipped")) << "a float file may go above";
}

TEST(ChainFindings, ASteadyLineIsNoLowCut) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 4; ++k) {
    auto wave = shot_pa(140 + k, {});
    // 42 dB at 110 Hz, where the fall from 113 to 57 Hz is looked for.
    for (std::size_t n = 0; n < wave.size(); ++n) wave[n] += 0.0036 * std::sin(2.0 * 3.14159265 * 110.0 * static_cast<double>(n) / kRate_hz);
    shots.push_back(evidence_of(wave));
  }
  EXPECT_FALSE(has_finding(recording_findings(shots), "low_cut"));
}

TEST(ChainFindings, A22kHzFileIsNarrow) {
  const auto findings = chain_findings(session({}, 2), {22050.0, false}).recording;
  ASSERT_TRUE(has_finding(findings, "band_limited"));
  EXPECT_FALSE(voided(findings, Quantity::levels)) << "doubted, not void";
  EXPECT_FALSE(has_finding(chain_findings(session({}, 2), {32000.0, false}).recording, "band_limited"));
}

TEST(ChainFindings, RustleBeforeAndAfterTheShotIsNoGainControl) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 4; ++k) {
    auto wave = shot_pa(150 + k, {.floor_db = 35.0});
    std::vector<double> strokes(wave.size(), 0.0);
    add_white_noise(strokes, 55.0, 160 + k);
    for (std::size_t n = 0; n < wave.size(); ++n) {
      const double t = static_cast<double>(n) / kRate_hz;
      const bool stroke = std::fmod(t, 0.16) < 0.08;  // half of the time
      if (stroke && (t < kEdge_s - 0.06 || t > kEdge_s + 0.7)) wave[n] += strokes[n];
    }
    shots.push_back(evidence_of(wave));
  }
  EXPECT_FALSE(has_finding(recording_findings(shots), "gain_not_constant"));
}

TEST(ChainFindings, AFloorThatSinksAndCreepsBackIsGainControl) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 4; ++k) {
    auto wave = shot_pa(70 + k, {});
    const auto edge = static_cast<std::size_t>(kEdge_s * kRate_hz);
    for (std::size_t n = edge; n < wave.size(); ++n) {
      const double t = static_cast<double>(n - edge) / kRate_hz;
      wave[n] *= std::pow(10.0, -10.0 * std::exp(-t / 1.0) / 20.0);  // 10 dB down, back with 1 s
    }
    shots.push_back(evidence_of(wave));
  }
  const auto findings = recording_findings(shots);
  EXPECT_TRUE(has_finding(findings, "gain_not_constant"));
  EXPECT_TRUE(voided(findings, Quantity::hum));
}

TEST(ChainFindings, AVoicePathIsBandLimited) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 3; ++k) {
    // The cut is made by going to 8 kHz and back in effect: everything above 4 kHz is taken away in the spectrum.
    auto evidence = evidence_of(shot_pa(90 + k, {}));
    for (std::size_t band = 0; band < evidence.shot_density_db.size(); ++band) {
      if (fine_band_centre_hz(band) > 4000.0) evidence.shot_density_db[band] = -130.0F;
    }
    shots.push_back(evidence);
  }
  const auto findings = recording_findings(shots);
  ASSERT_TRUE(has_finding(findings, "band_limited"));
  EXPECT_TRUE(voided(findings, Quantity::ping));
}

TEST(ChainFindings, AGentleRollOffIsNoBandLimit) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 3; ++k) {
    auto wave = shot_pa(95 + k, {});
    cut_above(wave, 12000.0);
    shots.push_back(evidence_of(wave));
  }
  EXPECT_FALSE(has_finding(recording_findings(shots), "band_limited"));
}

TEST(ChainFindings, ALowSampleRateIsBandLimited) {
  const auto all = chain_findings(session({}, 2), {8000.0, false});
  EXPECT_TRUE(has_finding(all.recording, "band_limited"));
}

TEST(ChainFindings, AFloorThatFallsTowardsTheBassIsALowCut) {
  std::vector<ChainEvidence> shots;
  for (std::size_t k = 0; k < 4; ++k) {
    auto wave = shot_pa(110 + k, {});
    cut_below(wave, 160.0);
    shots.push_back(evidence_of(wave));
  }
  EXPECT_TRUE(has_finding(recording_findings(shots), "low_cut"));
}

TEST(ChainFindings, MainsAtTheWrongPlaceMeansAWrongRateTag) {
  auto shots = session({}, 4);
  for (auto& shot : shots) shot.steady_hz = {50.0, 100.1, 150.0};
  EXPECT_FALSE(has_finding(recording_findings(shots), "rate_tag_doubtful"));
  EXPECT_TRUE(has_finding(recording_findings(shots), "steady_tone"));
  // By hand: 50 Hz recorded at 44.1 kHz and tagged 48 kHz reads 54.42 Hz.
  for (auto& shot : shots) shot.steady_hz = {54.4, 108.8, 163.3};
  EXPECT_TRUE(has_finding(recording_findings(shots), "rate_tag_doubtful"));
}

TEST(ChainFindings, AGustBeforeOneShotIsWindThere) {
  auto shots = session({}, 4);
  shots.push_back(evidence_of(shot_pa(130, {.floor_db = 45.0, .gain_db = 0.0, .rumble_db = 60.0})));
  const auto all = chain_findings(shots, {kRate_hz, false});
  EXPECT_FALSE(has_finding(all.per_shot[0], "wind"));
  EXPECT_TRUE(has_finding(all.per_shot[4], "wind"));
}

TEST(ChainEvidence, ReadsTheFloorsDensity) {
  // White noise of level L over 24 kHz has a density of L - 10 lg 24000 dB per hertz (by hand).
  const auto evidence = evidence_of(shot_pa(5, {.floor_db = 60.0}));
  ASSERT_FALSE(evidence.floor_density_db.empty());
  double sum = 0.0;
  int bands = 0;
  for (std::size_t k = 0; k < evidence.floor_density_db.size(); ++k) {
    if (fine_band_centre_hz(k) < 500.0 || fine_band_centre_hz(k) > 10000.0) continue;
    sum += static_cast<double>(evidence.floor_density_db[k]);
    ++bands;
  }
  // The median of five half-overlapping frames is a little less biased than 1/ln 2 assumes: 0.7 dB.
  EXPECT_NEAR(sum / bands, 60.0 - 118.0 - 10.0 * std::log10(24000.0), 1.0);
}

}  // namespace
}  // namespace ringfall::shot
