// SPDX-License-Identifier: GPL-3.0-or-later
// End to end: a made-up session played by a real sound server into PortAudio, and what happens when that server dies.
#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "audio/sound_system.h"
#include "intake/listening.h"
#include "intake/recording.h"
#include "support/listening_events.h"
#include "support/made_session.h"
#include "support/null_sink.h"

namespace ringfall::intake {
namespace {

using namespace std::chrono_literals;

class EndToEnd : public testing::Test {
 protected:
  void SetUp() override {
    if (!NullSink::possible()) GTEST_SKIP() << "no pulseaudio, paplay and pactl here";
    sink_ = std::make_unique<NullSink>();
    made_logbook(folder_.path("book"), 18.0);
    options_.logbook = folder_.path("book");
    options_.setup = "bare";
    session_ = made_session(4, 2.5);
    audio::write_wav(folder_.path("a.wav"), session_.samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  }
  audio::OpenSource microphone() {
    return [this] { return system_.open_input({.device = kNullMicrophone, .sample_rate_hz = std::nullopt, .channel = 1}); };
  }

  const TestFolder folder_;
  std::unique_ptr<NullSink> sink_;
  audio::SoundSystem system_;
  ListeningOptions options_;
  MadeSession session_;
};

TEST_F(EndToEnd, TheDeviceIsListed) {
  const auto devices = system_.devices();
  const auto& device = audio::choose_device(devices, kNullMicrophone);
  EXPECT_GT(device.inputs, 0);
  EXPECT_EQ(device.host_system, "ALSA");
  EXPECT_FALSE(device.raw);
  EXPECT_EQ(&audio::choose_device(devices, std::to_string(device.number)), &device);
}

TEST_F(EndToEnd, APlayedSessionGivesTheShotsAndNumbersOfTheFile) {
  Listening listening(options_, microphone());
  events_until(listening, at_least<SourceOpened>(1));
  std::this_thread::sleep_for(1500ms);  // the first shot's floor
  sink_->play(folder_.path("a.wav"));
  events_until(listening, at_least<ShotKept>(4));
  listening.stop();
  RecordingOptions how;
  how.scale.full_scale_db_spl = kSessionFullScale_db;
  how.settings.find.distance_m = 18.0;
  const auto file = measure_recording(folder_.path("a.wav"), how);
  const auto blocks = logbook::Logbook(options_.logbook).blocks();
  ASSERT_EQ(blocks.size(), 1U);
  ASSERT_EQ(blocks[0].shots.size(), file.shots.size());
  const double offset_s = blocks[0].shots[0].shot.onset_s - file.shots[0].onset_s;
  for (std::size_t k = 0; k < file.shots.size(); ++k) {
    const auto& live = blocks[0].shots[k].shot;
    EXPECT_TRUE(blocks[0].shots[k].dropped.empty());
    EXPECT_FALSE(has_finding(live.findings, "sound_lost"));
    // Where playing began is not known: the times between shots are.
    EXPECT_NEAR(live.onset_s - offset_s, file.shots[k].onset_s, 0.001);
    EXPECT_NEAR(live.levels.peak_db.value(), file.shots[k].levels.peak_db.value(), 0.1);
    EXPECT_NEAR(live.levels.exposure_db.value(), file.shots[k].levels.exposure_db.value(), 0.1);
    EXPECT_NEAR(live.levels.fast_max_db.value(), file.shots[k].levels.fast_max_db.value(), 0.1);
    EXPECT_NEAR(live.impact_lag_s.value(), kSessionImpact_s, 0.005);
  }
}

TEST_F(EndToEnd, AKilledServerIsNoticedAndListeningGoesOnWhenItIsBack) {
  Listening listening(options_, microphone());
  events_until(listening, at_least<SourceOpened>(1));
  sink_->play(folder_.path("a.wav"));
  events_until(listening, at_least<ShotKept>(1));
  sink_->kill_server();
  const auto lost = events_until(listening, at_least<SourceLost>(1));
  const auto sentence = only<SourceLost>(lost).at(0).sentence;
  EXPECT_NE(sentence.find(kNullMicrophone), std::string::npos) << sentence;
  // What was heard is there, judged.
  if (only<BlockEnded>(lost).empty()) events_until(listening, at_least<BlockEnded>(1));
  const auto kept = logbook::Logbook(options_.logbook).blocks();
  ASSERT_EQ(kept.size(), 1U);
  EXPECT_GE(kept[0].shots.size(), 1U);

  sink_->start_server();
  events_until(listening, at_least<SourceOpened>(1));
  std::this_thread::sleep_for(1s);
  sink_->play(folder_.path("a.wav"));
  events_until(listening, at_least<ShotKept>(1));
  listening.stop();
  EXPECT_EQ(logbook::Logbook(options_.logbook).blocks().size(), 2U);
}

TEST_F(EndToEnd, AHungServerIsNoticedAndDoesNotHangTheProgram) {
  Listening listening(options_, microphone());
  events_until(listening, at_least<SourceOpened>(1));
  std::this_thread::sleep_for(1s);
  sink_->freeze_server(true);
  events_until(listening, at_least<SourceLost>(1));
  sink_->freeze_server(false);
  events_until(listening, at_least<SourceOpened>(1));
  listening.stop();
}

TEST_F(EndToEnd, SilentlyMissingSoundIsNoticed) {
  Listening listening(options_, microphone());
  events_until(listening, at_least<SourceOpened>(1));
  std::this_thread::sleep_for(5s);  // the watch has to know what is usual
  sink_->suspend(true);
  std::this_thread::sleep_for(800ms);
  sink_->suspend(false);
  const auto told = events_until(listening, at_least<Remark>(1));
  EXPECT_EQ(only<Remark>(told).at(0).finding.code, "sound_missing");
  listening.stop();
}

}  // namespace
}  // namespace ringfall::intake
