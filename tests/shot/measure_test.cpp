// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/measure.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "shot/numbers.h"
#include "shot/synthetic_shot.h"

namespace ringfall::shot {
namespace {

constexpr double kEdge_s = 0.8;

struct Sound {
  double rate_hz = 48000.0;
  double floor_db = 35.0;
  double impact_lag_s = 0.36;
  double length_s = 2.0;
};

Clip clip_of(std::vector<double> wave, const Sound& sound, double full_scale_db = 120.0) {
  Clip clip;
  clip.samples = to_full_scale(wave, full_scale_db);
  clip.sample_rate_hz = sound.rate_hz;
  clip.onset_sample = static_cast<std::int64_t>(kEdge_s * sound.rate_hz);
  if (sound.impact_lag_s > 0.0) {
    clip.impact_sample = clip.onset_sample + static_cast<std::int64_t>(sound.impact_lag_s * sound.rate_hz);
  }
  return clip;
}

Clip shot_clip(const Sound& sound = {}, double full_scale_db = 120.0) {
  std::vector<double> wave(static_cast<std::size_t>(sound.length_s * sound.rate_hz), 0.0);
  add_white_noise(wave, sound.floor_db, 11);
  SyntheticShot shot;
  shot.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
  shot.impact_lag_s = sound.impact_lag_s;
  add_synthetic_shot(wave, sound.rate_hz, kEdge_s, shot, 12);
  return clip_of(std::move(wave), sound, full_scale_db);
}

const Scale kCalibrated{120.0};

// Closed form (calculus): p = A e^(-t/tau) sin wt has the exposure (A^2 tau / 4) (w tau)^2 / (1 + (w tau)^2);
// A = 1 Pa, tau = 50 ms, 1 kHz: Z exposure level 74.948 dB. At 1 kHz A weighting is 0 dB (IEC 61672-1:2013 Table 3).
TEST(MeasureShot, ExposureOfADecayingSineIsTheClosedForm) {
  const Sound sound{.impact_lag_s = 0.0};
  std::vector<double> wave(96000, 0.0);
  add_white_noise(wave, 5.0, 1);
  const auto edge = static_cast<std::size_t>(kEdge_s * sound.rate_hz);
  for (std::size_t n = edge; n < wave.size(); ++n) {
    const double t = static_cast<double>(n - edge) / sound.rate_hz;
    wave[n] += std::exp(-t / 0.05) * std::sin(2.0 * std::numbers::pi * 1000.0 * t);
  }
  const auto shot = measure_shot(clip_of(wave, sound), kCalibrated, {}).shot;
  EXPECT_NEAR(shot.levels.exposure_z_db.value(), 74.948, 0.01);
  EXPECT_NEAR(shot.levels.exposure_db.value(), 74.948, 0.1);
  // F maximum of that envelope, closed form: 82.232 dB.
  EXPECT_NEAR(shot.levels.fast_max_db.value(), 82.232, 0.1);
  // 1 Pa peak is 93.98 dB; the sampled wave decays a little before its first crest.
  EXPECT_NEAR(shot.levels.peak_db.value(), 93.9, 0.1);
  // 60 dB time of the mean square: 6.9078 tau = 0.3454 s.
  EXPECT_NEAR(shot.ring_down.late_s.value(), 0.3454, 0.01);
  EXPECT_NEAR(shot.ring_down.early_s.value(), 0.3454, 0.02);
}

TEST(MeasureShot, FloorIsTheNoiseBeforeTheShot) {
  // White noise of 50 dB unweighted: A-weighted lower by the weighting's mean over 0-24 kHz, about -2.9 dB; so 45 .. 50.
  const auto shot = measure_shot(shot_clip({.floor_db = 50.0}), kCalibrated, {}).shot;
  EXPECT_GT(shot.levels.floor_db.value(), 45.0);
  EXPECT_LT(shot.levels.floor_db.value(), 50.0);
}

TEST(MeasureShot, WithoutCalibrationLevelsAreReFullScaleAndScoresTheSame) {
  const Clip clip = shot_clip();
  const auto calibrated = measure_shot(clip, kCalibrated, {}).shot;
  const auto plain = measure_shot(clip, Scale{}, {}).shot;
  EXPECT_DOUBLE_EQ(plain.levels.exposure_db.value() + 120.0, calibrated.levels.exposure_db.value());
  EXPECT_DOUBLE_EQ(plain.hits.front().level_db.value() + 120.0, calibrated.hits.front().level_db.value());
  EXPECT_DOUBLE_EQ(plain.tones.front().level_db + 120.0, calibrated.tones.front().level_db);
  EXPECT_EQ(plain.hum, calibrated.hum);
  EXPECT_EQ(plain.ping, calibrated.ping);
  EXPECT_EQ(plain.levels.loudness_sone, calibrated.levels.loudness_sone);
}

TEST(MeasureShot, CalibrationShiftsLevelsOnlyByItself) {
  // The same pressure recorded with 10 dB more gain: full scale is 110 dB instead of 120.
  const auto low = measure_shot(shot_clip({}, 120.0), Scale{120.0}, {}).shot;
  const auto high = measure_shot(shot_clip({}, 110.0), Scale{110.0}, {}).shot;
  EXPECT_NEAR(low.levels.exposure_db.value(), high.levels.exposure_db.value(), 0.001);
  EXPECT_NEAR(low.hum.value(), high.hum.value(), 0.01);
}

TEST(MeasureShot, TheSameClipGivesTheSameNumbers) {
  const Clip clip = shot_clip();
  const auto once = measure_shot(clip, Scale{}, {}).shot;
  const auto again = measure_shot(clip, Scale{}, {}).shot;
  for (const Number& number : numbers()) EXPECT_EQ(number.of(once), number.of(again)) << number.id;
}

TEST(MeasureShot, AnyRateGivesTheSameLevels) {
  const auto reference = measure_shot(shot_clip(), kCalibrated, {}).shot;
  for (const double rate_hz : {16000.0, 44100.0, 96000.0, 192000.0}) {
    const auto shot = measure_shot(shot_clip({.rate_hz = rate_hz}), kCalibrated, {}).shot;
    // The thump's noise differs from rate to rate; its level by a decibel or two.
    EXPECT_NEAR(shot.levels.exposure_z_db.value(), reference.levels.exposure_z_db.value(), 3.0) << rate_hz;
    ASSERT_TRUE(shot.hum.has_value()) << rate_hz;
    EXPECT_NEAR(*shot.hum, *reference.hum, 0.5) << rate_hz;
  }
  const auto telephone = measure_shot(shot_clip({.rate_hz = 8000.0}), kCalibrated, {}).shot;
  EXPECT_FALSE(telephone.levels.exposure_high_db.has_value());
  EXPECT_TRUE(telephone.hum.has_value());
}

TEST(MeasureShot, AnEarlyImpactEndsTheWindowAndTheHum) {
  const auto shot = measure_shot(shot_clip({.impact_lag_s = 0.110}), kCalibrated, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "impact_in_window"));
  EXPECT_TRUE(has_finding(shot.findings, "tail_too_short"));
  EXPECT_FALSE(shot.hum.has_value());
  EXPECT_TRUE(shot.ping.has_value());
  EXPECT_LE(shot.tail_end_s.value(), shot.onset_s + 0.1001);
}

TEST(MeasureShot, ANextShotInTheTailIsSaid) {
  Clip clip = shot_clip({.impact_lag_s = 0.0});
  clip.next_shot_sample = clip.onset_sample + 9600;
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "shots_overlap"));
  EXPECT_LE(shot.tail_end_s.value(), shot.onset_s + 0.19);
}

TEST(MeasureShot, AClippedShotHasNoLevelsButATail) {
  Clip clip = shot_clip({}, 95.0);
  for (float& sample : clip.samples) sample = std::clamp(sample, -1.0F, 1.0F);
  const auto shot = measure_shot(clip, Scale{95.0}, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "clipped"));
  EXPECT_FALSE(shot.levels.peak_db.has_value());
  EXPECT_FALSE(shot.levels.loudness_sone.has_value());
  EXPECT_FALSE(shot.ring_down.early_s || shot.ring_down.late_s || shot.ring_down.to_20_db_s) << "its start is too low";
  ASSERT_FALSE(shot.hits.empty());
  for (const Hit& hit : shot.hits) EXPECT_FALSE(hit.level_db) << hit.lag_s;
  EXPECT_TRUE(shot.levels.floor_db.has_value());
  EXPECT_TRUE(shot.hum.has_value());
}

TEST(MeasureShot, AShotInLoudNoiseSaysSo) {
  const auto shot = measure_shot(shot_clip({.floor_db = 85.0}), kCalibrated, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "noisy_floor"));
  EXPECT_FALSE(has_finding(measure_shot(shot_clip(), kCalibrated, {}).shot.findings, "noisy_floor"));
}

TEST(MeasureShot, AFileThatStartsOnTheHitHasNoNumbers) {
  Clip clip = shot_clip();
  clip.samples.erase(clip.samples.begin(), clip.samples.begin() + clip.onset_sample);
  clip.first_sample = clip.onset_sample;
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "starts_inside_shot"));
  EXPECT_FALSE(shot.levels.floor_db || shot.levels.exposure_db || shot.levels.loudness_sone);
  EXPECT_FALSE(shot.ring_down.early_s || shot.hum || shot.ping || shot.buzz || shot.impact_lag_s);
  EXPECT_TRUE(shot.tones.empty());
}

TEST(MeasureShot, AFileThatStartsJustBeforeTheHitHasNoFloor) {
  Clip clip = shot_clip();
  const std::int64_t begin = clip.onset_sample - 960;  // 20 ms
  clip.samples.erase(clip.samples.begin(), clip.samples.begin() + (begin - clip.first_sample));
  clip.first_sample = begin;
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_FALSE(shot.levels.floor_db);
  EXPECT_TRUE(voided(shot.findings, Quantity::floor));
  EXPECT_TRUE(shot.levels.exposure_db && shot.ping);
}

TEST(MeasureShot, DigitalSilenceBeforeTheShotIsNoFloor) {
  Clip clip = shot_clip();
  std::fill(clip.samples.begin(), clip.samples.begin() + (clip.onset_sample - clip.first_sample - 480), 0.0F);
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_TRUE(has_finding(shot.findings, "noise_gate"));
  EXPECT_FALSE(shot.levels.floor_db);
  EXPECT_TRUE(shot.levels.exposure_db && shot.hum);
}

TEST(MeasureShot, AFileThatEndsAfterTheHitIsMeasuredAsFarAsItGoes) {
  Clip clip = shot_clip({.impact_lag_s = 0.0});
  clip.samples.resize(static_cast<std::size_t>(clip.onset_sample) + 2880);  // 60 ms
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_TRUE(shot.levels.peak_db.has_value());
  EXPECT_FALSE(shot.hum.has_value());
  EXPECT_FALSE(shot.ping.has_value());
  EXPECT_TRUE(has_finding(shot.findings, "tail_too_short"));
}

TEST(MeasureShot, SilenceIsNoLevel) {
  Clip clip = shot_clip();
  std::fill(clip.samples.begin(), clip.samples.end(), 0.0F);
  const auto shot = measure_shot(clip, kCalibrated, {}).shot;
  EXPECT_FALSE(shot.levels.exposure_db.has_value());
  EXPECT_FALSE(shot.ring_down.early_s.has_value());
  EXPECT_TRUE(shot.tones.empty());
}

TEST(MeasureShot, ARecordingThatEndsInsideTheWindowSaysSo) {
  Clip clip = shot_clip();
  const auto edge = static_cast<std::size_t>(clip.onset_sample - clip.first_sample);
  clip.impact_sample.reset();
  clip.samples.resize(edge + static_cast<std::size_t>(0.4 * clip.sample_rate_hz));
  EXPECT_FALSE(has_finding(measure_shot(clip, kCalibrated, {}).shot.findings, "ends_inside_shot"));
  clip.samples.resize(edge + static_cast<std::size_t>(0.1 * clip.sample_rate_hz));
  EXPECT_TRUE(has_finding(measure_shot(clip, kCalibrated, {}).shot.findings, "ends_inside_shot"));
}

TEST(VoidNumbers, OnlyWhatIsNamedGoes) {
  auto shot = measure_shot(shot_clip(), kCalibrated, {}).shot;
  void_numbers(shot, {{"x", Severity::caution, {Quantity::levels}, ""}});
  EXPECT_TRUE(shot.levels.exposure_db.has_value());
  void_numbers(shot, {{"x", Severity::void_, {Quantity::hum, Quantity::ring_down}, ""}});
  EXPECT_FALSE(shot.hum.has_value());
  EXPECT_FALSE(shot.hum_parts.strength_db.has_value());  // a part is a number of its own in a comparison
  EXPECT_FALSE(shot.ring_down.late_s.has_value());
  EXPECT_TRUE(shot.ping.has_value());
  EXPECT_TRUE(shot.ping_parts.strength_db.has_value());
  EXPECT_TRUE(shot.levels.exposure_db.has_value());
}

TEST(Numbers, AreFoundByTheirNames) {
  ASSERT_NE(find_number("hum"), nullptr);
  EXPECT_EQ(find_number("exposure_db")->unit, "dB");
  EXPECT_EQ(find_number("exposure"), nullptr);
}

}  // namespace
}  // namespace ringfall::shot
