// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/recording.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <thread>

#include "audio/sound_writer.h"
#include "base/failure.h"
#include "intake/calibration.h"
#include "intake/clips.h"
#include "shot/numbers.h"
#include "shot/synthetic_shot.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

constexpr double kRate_hz = 48000.0;
constexpr double kFullScale_db = 120.0;

/// A folder of its own that goes away with the test.
class Recorded : public testing::Test {
 protected:
  std::string path(const std::string& name) const { return folder_.path(name); }

  /// Invented shots at 2 s, 7 s, 12 s ...; returns the edges.
  std::vector<double> shots_into(std::vector<double>& wave, int count) const {
    std::vector<double> edges;
    for (int k = 0; k < count; ++k) {
      shot::SyntheticShot shot;
      shot.tones = {{95.0, 80.0, 0.30}, {1450.0, 74.0, 0.16}};
      shot.impact_lag_s = 0.344;
      edges.push_back(2.0 + 5.0 * k + 0.1234 * k);
      shot::add_synthetic_shot(wave, kRate_hz, edges.back(), shot, 40 + static_cast<std::uint64_t>(k));
    }
    return edges;
  }

  std::vector<double> quiet(double seconds) const {
    std::vector<double> wave(static_cast<std::size_t>(seconds * kRate_hz), 0.0);
    shot::add_white_noise(wave, 35.0, 3);
    return wave;
  }

  const TestFolder folder_;
};

// Bit for bit: the clips are the same, and who measures one must not matter.
TEST_F(Recorded, NumbersAreTheSameForAnyNumberOfThreads) {
  auto wave = quiet(44.0);
  const auto edges = shots_into(wave, 8);
  audio::write_wav(path("a.wav"), shot::to_full_scale(wave, kFullScale_db), kRate_hz, audio::SampleCoding::wav_24_bit);
  RecordingOptions options;
  const auto alone = measure_recording(path("a.wav"), options);
  ASSERT_EQ(alone.shots.size(), edges.size());
  for (const std::size_t others : {1U, 3U}) {
    options.other_threads = others;
    const auto shared = measure_recording(path("a.wav"), options);
    ASSERT_EQ(shared.shots.size(), alone.shots.size());
    for (std::size_t k = 0; k < alone.shots.size(); ++k) {
      for (const auto& number : shot::numbers()) {
        EXPECT_EQ(number.of(shared.shots[k]), number.of(alone.shots[k])) << number.id << " of shot " << k + 1;
      }
      ASSERT_EQ(shared.shots[k].tones.size(), alone.shots[k].tones.size());
      for (std::size_t tone = 0; tone < alone.shots[k].tones.size(); ++tone) {
        EXPECT_EQ(shared.shots[k].tones[tone].level_db, alone.shots[k].tones[tone].level_db);
      }
      EXPECT_EQ(shared.shots[k].findings.size(), alone.shots[k].findings.size());
    }
    EXPECT_EQ(shared.findings.size(), alone.findings.size());
  }
}

TEST_F(Recorded, EveryShotIsFoundWhereItIs) {
  auto wave = quiet(24.0);
  const auto edges = shots_into(wave, 4);
  audio::write_wav(path("a.wav"), shot::to_full_scale(wave, kFullScale_db), kRate_hz, audio::SampleCoding::wav_24_bit);
  RecordingOptions options;
  options.settings.find.distance_m = 18.0;
  const auto recording = measure_recording(path("a.wav"), options);
  ASSERT_EQ(recording.shots.size(), edges.size());
  for (std::size_t k = 0; k < edges.size(); ++k) {
    EXPECT_EQ(recording.shots[k].number, static_cast<int>(k) + 1);
    EXPECT_NEAR(recording.shots[k].onset_s, edges[k], 0.0003);
    EXPECT_NEAR(recording.shots[k].impact_lag_s.value(), 0.344, 0.002);
    // (18 - 0.5) / (0.344 - 18/343.2) = 60.0 m/s by hand.
    EXPECT_NEAR(recording.shots[k].arrow_speed_m_s.value(), 60.0, 0.6);
  }
  EXPECT_TRUE(has_finding(recording.findings, "not_calibrated"));
  EXPECT_EQ(recording.channel, 1);
  EXPECT_DOUBLE_EQ(recording.duration_s, 24.0);
}

TEST_F(Recorded, SilenceAndNoiseHoldNoShot) {
  audio::write_wav(path("noise.wav"), shot::to_full_scale(quiet(10.0), kFullScale_db), kRate_hz);
  EXPECT_TRUE(measure_recording(path("noise.wav"), {}).shots.empty());
  EXPECT_TRUE(has_finding(measure_recording(path("noise.wav"), {}).findings, "no_shot"));
  audio::write_wav(path("zero.wav"), std::vector<float>(96000, 0.0F), kRate_hz);
  EXPECT_TRUE(measure_recording(path("zero.wav"), {}).shots.empty());
}

TEST_F(Recorded, TheLiveChannelIsMeasuredAndAnotherOnDemand) {
  auto wave = quiet(9.0);
  shots_into(wave, 1);
  const auto loud = shot::to_full_scale(wave, kFullScale_db);
  std::vector<float> stereo;
  for (const float sample : loud) {
    stereo.push_back(0.0F);
    stereo.push_back(sample);
  }
  audio::SoundWriter writer(path("s.wav"), kRate_hz, 2, audio::SampleCoding::wav_24_bit);
  writer.write(stereo);
  writer.close();
  EXPECT_EQ(measure_recording(path("s.wav"), {}).channel, 2);
  EXPECT_EQ(measure_recording(path("s.wav"), {}).shots.size(), 1U);
  RecordingOptions dead;
  dead.channel = 1;
  EXPECT_TRUE(measure_recording(path("s.wav"), dead).shots.empty());
  RecordingOptions none;
  none.channel = 3;
  EXPECT_THROW(measure_recording(path("s.wav"), none), RequestFailure);
}

TEST_F(Recorded, StoppingKeepsWhatWasHeard) {
  auto wave = quiet(24.0);
  shots_into(wave, 4);
  audio::write_wav(path("a.wav"), shot::to_full_scale(wave, kFullScale_db), kRate_hz);
  int reports = 0;
  const auto recording = measure_recording(path("a.wav"), {}, [&reports](std::optional<double> share) {
    EXPECT_TRUE(share.has_value());
    return ++reports < 6;  // 6 blocks of 65536 samples: 8.2 s
  });
  EXPECT_TRUE(recording.stopped);
  EXPECT_EQ(recording.shots.size(), 2U);
}

TEST_F(Recorded, ClipsComeBackAsTheyWere) {
  auto wave = quiet(14.0);
  shots_into(wave, 2);
  const auto samples = shot::to_full_scale(wave, kFullScale_db);
  audio::write_wav(path("a.wav"), samples, kRate_hz, audio::SampleCoding::wav_float);
  const auto recording = measure_recording(path("a.wav"), {});
  std::size_t seen = 0;
  clips_of(recording, shot::FindSettings{}, [&](std::size_t index, const shot::Clip& clip) {
    EXPECT_EQ(index, seen++);
    ASSERT_EQ(clip.samples.size(), 96000U);  // 0.8 s before, 1.2 s after
    for (std::size_t n = 0; n < clip.samples.size(); n += 997) {
      ASSERT_EQ(clip.samples[n], samples[static_cast<std::size_t>(clip.first_sample) + n]);
    }
  });
  EXPECT_EQ(seen, recording.shots.size());
}

TEST_F(Recorded, ThreadsMeasureSideBySideWithEqualResults) {
  auto wave = quiet(9.0);
  shots_into(wave, 1);
  audio::write_wav(path("a.wav"), shot::to_full_scale(wave, kFullScale_db), kRate_hz, audio::SampleCoding::wav_24_bit);
  const auto alone = measure_recording(path("a.wav"), {});
  std::vector<Recording> together(3);
  {
    std::vector<std::jthread> workers;
    for (auto& result : together) workers.emplace_back([&] { result = measure_recording(path("a.wav"), {}); });
  }
  ASSERT_EQ(alone.shots.size(), 1U);
  for (const auto& result : together) {
    ASSERT_EQ(result.shots.size(), 1U);
    EXPECT_EQ(result.shots[0].levels.exposure_db, alone.shots[0].levels.exposure_db);
    EXPECT_EQ(result.shots[0].hum, alone.shots[0].hum);
  }
}

TEST_F(Recorded, AMissingFileIsSaidSo) { EXPECT_THROW(measure_recording(path("no.wav"), {}), FileFailure); }

/// A tone of `rms` re full scale.
std::vector<float> tone(double rms, double seconds, double frequency_hz) {
  std::vector<float> samples;
  for (int n = 0; n < static_cast<int>(seconds * kRate_hz); ++n) {
    samples.push_back(static_cast<float>(rms * std::numbers::sqrt2 *
                                         std::sin(2.0 * std::numbers::pi * frequency_hz * n / kRate_hz)));
  }
  return samples;
}

// Worked example by hand: 94 dB that reads an rms of 0.0100 puts a full-scale peak at 94 + 40 = 134.00 dB.
TEST_F(Recorded, CalibrationReadsTheTonesLevel) {
  audio::write_wav(path("c.wav"), tone(0.01, 3.0, 1000.0), kRate_hz);
  const auto calibration = calibrate(path("c.wav"), 94.0, std::nullopt);
  EXPECT_NEAR(calibration.full_scale_db_spl, 134.0, 0.01);
  EXPECT_NEAR(calibration.tone_hz, 1000.0, 2.0);
}

TEST_F(Recorded, CalibrationRefusesWhatIsNoSteadyTone) {
  audio::write_wav(path("noise.wav"), shot::to_full_scale(quiet(3.0), 60.0), kRate_hz);
  EXPECT_THROW(calibrate(path("noise.wav"), 94.0, std::nullopt), FileFailure);
  audio::write_wav(path("loud.wav"), tone(0.9, 3.0, 1000.0), kRate_hz, audio::SampleCoding::wav_16_bit);
  EXPECT_THROW(calibrate(path("loud.wav"), 94.0, std::nullopt), FileFailure);
  auto fading = tone(0.05, 3.0, 1000.0);
  for (std::size_t n = 0; n < fading.size(); ++n) fading[n] *= static_cast<float>(1.0 - 0.2 * static_cast<double>(n) / 144000.0);
  audio::write_wav(path("fading.wav"), fading, kRate_hz);
  EXPECT_THROW(calibrate(path("fading.wav"), 94.0, std::nullopt), FileFailure);
}

}  // namespace
}  // namespace ringfall::intake
