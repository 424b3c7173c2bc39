// SPDX-License-Identifier: GPL-3.0-or-later
// Made-up chains with one fault each, and one without; the level meter.
#include "intake/chain_check.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/failure.h"
#include "intake/chain_judgement.h"
#include "intake/level_meter.h"
#include "intake/source_findings.h"
#include "signal/resample.h"
#include "support/made_session.h"
#include "support/memory_source.h"

namespace ringfall::intake {
namespace {

constexpr double kClap_s = 6.0;
constexpr double kFloor_db = 40.0;

/// Twelve seconds: noise, and at 6 s a clap, which is a synthetic shot without tones and impact.
std::vector<float> made_clap(bool clap = true) {
  std::vector<double> wave(static_cast<std::size_t>(12.0 * kSessionRate_hz), 0.0);
  shot::add_white_noise(wave, kFloor_db, 7);
  shot::SyntheticShot sound;
  sound.impact_lag_s = 0.0;
  sound.release_lag_s = 0.0;
  if (clap) shot::add_synthetic_shot(wave, kSessionRate_hz, kClap_s, sound, 8);
  return shot::to_full_scale(wave, kSessionFullScale_db);
}

ChainCheck check_of(std::vector<float> samples) {
  audio::MemoryReins reins;
  audio::MemorySource source(std::move(samples), kSessionRate_hz, reins);
  return check_chain(source, {}, [](const std::string&) {});
}

bool says(const std::vector<std::string>& verdicts, const std::string& begin) {
  return std::ranges::any_of(verdicts, [&](const std::string& verdict) { return verdict.starts_with(begin); });
}

TEST(ChainCheck, AGoodChainIsGoodForEverything) {
  const auto check = check_of(made_clap());
  ASSERT_TRUE(check.heard_clap);
  // White noise of 40 dB SPL where a full-scale peak is 118 dB SPL.
  EXPECT_NEAR(check.floor_before_db.value(), kFloor_db - kSessionFullScale_db, 0.2);
  EXPECT_NEAR(check.floor_after_db.value(), kFloor_db - kSessionFullScale_db, 0.2);
  EXPECT_GT(check.highest_hz.value(), 15000.0);
  for (const auto& verdict : chain_verdicts(check)) EXPECT_TRUE(verdict.ends_with(": good")) << verdict;
}

TEST(ChainCheck, WithoutAClapNothingIsSaidOfIt) {
  const auto check = check_of(made_clap(false));
  EXPECT_FALSE(check.heard_clap);
  EXPECT_FALSE(check.highest_hz);
  EXPECT_TRUE(has_finding(check.findings, "no_clap"));
  EXPECT_TRUE(says(chain_verdicts(check), "levels: doubtful (no_clap)"));
}

TEST(ChainCheck, AGainThatMovesIsFound) {
  auto samples = made_clap();
  // After the clap the noise comes up by 6.02 dB, as a gain control does.
  for (std::size_t k = static_cast<std::size_t>((kClap_s + 1.0) * kSessionRate_hz); k < samples.size(); ++k) samples[k] *= 2.0F;
  const auto check = check_of(samples);
  EXPECT_NEAR(check.floor_after_db.value() - check.floor_before_db.value(), 6.02, 0.3);
  EXPECT_TRUE(has_finding(check.findings, "gain_not_constant"));
  EXPECT_TRUE(says(chain_verdicts(check), "levels: not fit"));
}

TEST(ChainCheck, ASpeechBandIsGoodForLevelsNotForPing) {
  // Through 12 kHz and back: nothing above 6 kHz but a little white noise, as a wide-band speech codec leaves it.
  const auto clap = made_clap();
  const auto narrow = signal::resample(std::vector<double>(clap.begin(), clap.end()), kSessionRate_hz, 12000.0);
  auto wave = signal::resample(narrow, 12000.0, kSessionRate_hz);
  std::vector<double> noise(wave.size(), 0.0);
  shot::add_white_noise(noise, kFloor_db, 9);
  const auto added = shot::to_full_scale(noise, kSessionFullScale_db);
  std::vector<float> samples(wave.size());
  for (std::size_t k = 0; k < wave.size(); ++k) samples[k] = static_cast<float>(wave[k]) + added[k];
  const auto check = check_of(samples);
  EXPECT_NEAR(check.highest_hz.value(), 6000.0, 500.0);
  const auto verdicts = chain_verdicts(check);
  EXPECT_TRUE(says(verdicts, "levels: good"));
  EXPECT_TRUE(says(verdicts, "ping: not fit (band_limited)"));
}

TEST(ChainCheck, ClippingIsFound) {
  auto samples = made_clap();
  for (float& sample : samples) sample = std::clamp(sample * 12.0F, -1.0F, 1.0F);
  EXPECT_TRUE(has_finding(check_of(samples).findings, "clipped"));
}

TEST(ChainCheck, AWrongRateAndALongRoomAreJudged) {
  ChainCheck check;
  check.heard_clap = true;
  check.clock_rate_hz = 44100.0;
  check.room_decay_s = 1.2;
  judge_chain(check, 48000.0);
  EXPECT_TRUE(has_finding(check.findings, "rate_doubtful"));
  EXPECT_TRUE(has_finding(check.findings, "room_long"));
  check.findings.clear();
  check.clock_rate_hz = 48000.0 * 1.005;
  check.room_decay_s = 0.4;
  judge_chain(check, 48000.0);
  EXPECT_TRUE(check.findings.empty());
}

TEST(ChainCheck, ALostDeviceFailsInOneSentence) {
  audio::MemoryReins reins;
  reins.most = 1000;
  reins.health.pulse = audio::SourcePulse::lost;
  audio::MemorySource source(made_clap(), kSessionRate_hz, reins);
  EXPECT_THROW(check_chain(source, {}, [](const std::string&) {}), DeviceFailure);
}

TEST(CheckTone, ItsLevelIsThatOfTheSineAndNoiseHasNone) {
  // Amplitude 0.1: 20 lg(0.1 / sqrt 2) = -23.01 dB re full scale.
  std::vector<float> samples(static_cast<std::size_t>(4.0 * kSessionRate_hz));
  for (std::size_t k = 0; k < samples.size(); ++k) {
    samples[k] = static_cast<float>(0.1 * std::sin(2.0 * std::numbers::pi * 1000.0 * static_cast<double>(k) / kSessionRate_hz));
  }
  audio::MemoryReins reins;
  audio::MemorySource tone(samples, kSessionRate_hz, reins);
  EXPECT_NEAR(hear_check_tone(tone, 1000.0, 4.0).value(), -23.01, 0.01);
  audio::MemorySource again(samples, kSessionRate_hz, reins);
  EXPECT_FALSE(hear_check_tone(again, 2000.0, 4.0));
  audio::MemorySource noise(made_clap(false), kSessionRate_hz, reins);
  EXPECT_FALSE(hear_check_tone(noise, 1000.0, 4.0));
}

TEST(LevelMeter, ShowsLevelHeldPeakAndClipping) {
  LevelMeter meter(kSessionRate_hz);
  // A sine of amplitude 0.5: rms 20 lg(0.5 / sqrt 2) = -9.03 dB, peak -6.02 dB.
  std::vector<float> samples(static_cast<std::size_t>(0.2 * kSessionRate_hz));
  for (std::size_t k = 0; k < samples.size(); ++k) {
    samples[k] = static_cast<float>(0.5 * std::sin(2.0 * std::numbers::pi * 1000.0 * static_cast<double>(k) / kSessionRate_hz));
  }
  meter.push(samples);
  EXPECT_NEAR(meter.reading().rms_db, -9.03, 0.01);
  EXPECT_NEAR(meter.reading().peak_db, -6.02, 0.01);
  EXPECT_FALSE(meter.reading().clipped);
  meter.push(std::vector<float>(static_cast<std::size_t>(1.9 * kSessionRate_hz), 0.0F));
  EXPECT_EQ(meter.reading().rms_db, -120.0);
  EXPECT_NEAR(meter.reading().held_peak_db, -6.02, 0.01);
  meter.push(std::vector<float>(static_cast<std::size_t>(0.2 * kSessionRate_hz), 0.0F));
  EXPECT_EQ(meter.reading().held_peak_db, -120.0);
  meter.push(std::vector<float>{0.0F, 1.0F, 1.0F, 0.0F, 1.0F});
  EXPECT_FALSE(meter.reading().clipped) << "two in a row may be a crest";
  meter.push(std::vector<float>{-1.0F, -1.0F});
  EXPECT_TRUE(meter.reading().clipped);
  meter.wipe_clip_mark();
  EXPECT_FALSE(meter.reading().clipped);
}

TEST(LevelMeter, HoldsTheFloorBetweenLoudThings) {
  LevelMeter meter(kSessionRate_hz);
  // Constants: their rms is their amplitude, 0.001 = -60 dB and 0.1 = -20 dB.
  const auto hold = [&meter](float value, double seconds) {
    meter.push(std::vector<float>(static_cast<std::size_t>(seconds * kSessionRate_hz), value));
  };
  hold(0.001F, 0.5);
  EXPECT_NEAR(meter.reading().floor_db, -60.0, 0.01);
  hold(0.1F, 1.5);
  EXPECT_NEAR(meter.reading().rms_db, -20.0, 0.01);
  EXPECT_NEAR(meter.reading().floor_db, -60.0, 0.01) << "quiet was less than two seconds ago";
  hold(0.1F, 0.8);
  EXPECT_NEAR(meter.reading().floor_db, -20.0, 0.01);
}

// The limits are those of the chain check: 40 dB from floor to peak, a peak of -30 dB at the least and -12 to -6 dB wanted.
TEST(LevelMeter, IsJudgedByTheLimitsOfTheChainCheck) {
  MeterReading reading;
  const auto code = [&reading](std::optional<double> shot_peak_db) {
    const auto finding = judge_meter(reading, shot_peak_db);
    return finding ? finding->code : std::string("fine");
  };
  EXPECT_EQ(code(std::nullopt), "no_sound");
  reading.rms_db = reading.floor_db = -47.0;
  EXPECT_EQ(code(std::nullopt), "fine");
  EXPECT_EQ(code(-6.0), "fine");
  EXPECT_EQ(code(-8.0), "floor_high") << "39 dB";
  EXPECT_EQ(code(-0.5), "little_headroom");
  reading.floor_db = -45.0;
  EXPECT_EQ(code(std::nullopt), "floor_high") << "not even a peak of -6 dB would stand out by 40 dB";
  reading.rms_db = -20.0;
  reading.floor_db = -80.0;
  EXPECT_EQ(code(-15.0), "fine") << "a shot is no noise between shots";
  EXPECT_EQ(code(-31.0), "too_faint");
  reading.clipped = true;
  EXPECT_EQ(code(-31.0), "clipped");
}

TEST(SourceFindings, NothingLostNothingSaid) {
  audio::SourceHealth health;
  health.overruns = 3;
  health.missing_s = 2.0;
  EXPECT_TRUE(findings_of_source(health, health, kSessionRate_hz).empty());
  auto later = health;
  later.overruns = 4;
  later.lost_frames = 4800;
  ASSERT_TRUE(loss_between(health, later, kSessionRate_hz));
  EXPECT_NE(loss_between(health, later, kSessionRate_hz)->sentence.find("0.10 s"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::intake
