// SPDX-License-Identifier: GPL-3.0-or-later
// Listening to sources from memory: what it keeps and measures is what the file path finds in the same sound.
#include "intake/listening.h"

#include <gtest/gtest.h>

#include <chrono>
#include <thread>

#include "base/failure.h"
#include "intake/recording.h"
#include "shot/numbers.h"
#include "support/listening_events.h"
#include "support/made_session.h"
#include "support/memory_source.h"
#include "support/test_folder.h"

namespace ringfall::intake {
namespace {

using namespace std::chrono_literals;

class ListeningThreads : public testing::Test {
 protected:
  ListeningOptions options() const {
    ListeningOptions options;
    options.logbook = folder_.path("book");
    options.setup = "bare";
    return options;
  }
  audio::OpenSource source(std::vector<float> samples, std::size_t rounds = 1) {
    return [this, samples = std::move(samples), rounds] {
      return std::make_unique<audio::MemorySource>(samples, kSessionRate_hz, reins_, rounds);
    };
  }
  /// Listens to all of it.
  std::vector<ListeningEvent> hear(const ListeningOptions& options, audio::OpenSource open) {
    Listening listening(options, std::move(open));
    return events_until(listening, [&](const auto&) { return listening.stopped(); });
  }
  Recording by_file(const MadeSession& session, std::optional<double> distance_m) const {
    audio::write_wav(folder_.path("a.wav"), session.samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
    RecordingOptions how;
    how.scale.full_scale_db_spl = kSessionFullScale_db;
    how.settings.find.distance_m = distance_m;
    return measure_recording(folder_.path("a.wav"), how);
  }

  const TestFolder folder_;
  audio::MemoryReins reins_;
};

TEST_F(ListeningThreads, KeepsTheShotsAndNumbersOfTheFilePath) {
  // Without a distance the hasty finder and the finder proper differ most; 70 m is the longest wait.
  for (const std::optional<double> distance_m : {std::optional<double>(), std::optional(18.0), std::optional(70.0)}) {
    const MadeSession session = made_session(5, 5.0, 40, distance_m == 70.0 ? 1.2 : kSessionImpact_s);
    const std::string path = folder_.path(distance_m ? std::to_string(*distance_m) : "none");
    made_logbook(path, distance_m);
    auto how = options();
    how.logbook = path;
    const auto events = hear(how, source(session.samples));
    const Recording file = by_file(session, distance_m);
    ASSERT_EQ(file.shots.size(), session.edges_s.size());

    const logbook::Logbook book(path);
    const auto blocks = book.blocks();
    ASSERT_EQ(blocks.size(), 1U);
    EXPECT_EQ(blocks[0].setup, "bare");
    for (const auto& kept : blocks[0].shots) {
      EXPECT_TRUE(kept.dropped.empty()) << kept.shot.onset_s << " " << kept.dropped << " at " << distance_m.value_or(0.0);
    }
    ASSERT_EQ(blocks[0].shots.size(), file.shots.size());
    ASSERT_EQ(blocks[0].findings.size(), file.findings.size());
    for (std::size_t k = 0; k < file.shots.size(); ++k) {
      const auto& kept = blocks[0].shots[k];
      EXPECT_NEAR(kept.shot.onset_s, session.edges_s[k], 0.0003);
      EXPECT_DOUBLE_EQ(kept.shot.onset_s, file.shots[k].onset_s);
      for (const shot::Number& number : shot::numbers()) {
        const auto here = number.of(kept.shot);
        const auto there = number.of(file.shots[k]);
        ASSERT_EQ(here.has_value(), there.has_value()) << number.id;
        EXPECT_NEAR(here.value_or(0.0), there.value_or(0.0), 1e-9) << number.id;
      }
      // The kept sound is the sound: 24 bits in, 24 bits out.
      const auto clip = book.clip(kept.id);
      EXPECT_EQ(clip.coding, "flac");
    }
    EXPECT_EQ(only<ShotKept>(events).size(), file.shots.size());
    const auto ended = only<BlockEnded>(events);
    ASSERT_EQ(ended.size(), 1U);
    EXPECT_EQ(ended[0].shots.size(), file.shots.size());
  }
}

TEST_F(ListeningThreads, FirstLookComesBeforeTheSoundIsKeptAndIsNearlyRight) {
  made_logbook(folder_.path("book"));
  const auto events = hear(options(), source(made_session(3).samples));
  std::vector<ShotMeasured> looks;
  std::vector<ShotMeasured> finals;
  for (const auto& measured : only<ShotMeasured>(events)) (measured.first_look ? looks : finals).push_back(measured);
  ASSERT_EQ(looks.size(), 3U);
  ASSERT_EQ(finals.size(), 3U);
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_FALSE(looks[k].id);
    ASSERT_TRUE(finals[k].id);
    EXPECT_NEAR(looks[k].onset_s, finals[k].onset_s, 0.001);
    // The exposure window is over by then: the same number.
    EXPECT_NEAR(looks[k].shot.levels.exposure_db.value(), finals[k].shot.levels.exposure_db.value(), 0.1);
    EXPECT_NEAR(looks[k].shot.hum.value(), finals[k].shot.hum.value(), 0.5);
  }
}

TEST_F(ListeningThreads, NothingIsFoundInNoise) {
  made_logbook(folder_.path("book"));
  std::vector<double> wave(static_cast<std::size_t>(20.0 * kSessionRate_hz), 0.0);
  shot::add_white_noise(wave, 55.0, 3);
  const auto events = hear(options(), source(shot::to_full_scale(wave, kSessionFullScale_db)));
  EXPECT_TRUE(only<ShotKept>(events).empty());
  EXPECT_TRUE(only<Failed>(events).empty());
  EXPECT_TRUE(logbook::Logbook(folder_.path("book")).blocks().empty());
}

TEST_F(ListeningThreads, PausedItKeepsNothingAndArmedAgainItDoes) {
  made_logbook(folder_.path("book"));
  const MadeSession session = made_session(4);
  auto how = options();
  how.armed = false;
  reins_.most = static_cast<std::size_t>(8.0 * kSessionRate_hz);  // two shots, at 2 and 7 s
  reins_.ends = false;
  Listening listening(how, source(session.samples));
  events_until(listening, at_least<SourceOpened>(1));
  // The meter goes on; the shot's peak is held when the sound stops.
  events_until(listening, [&](const auto&) { return listening.meter().held_peak_db > -60.0; });
  std::this_thread::sleep_for(300ms);
  listening.arm();
  events_until(listening, at_least<ArmedChanged>(1));
  {
    const std::scoped_lock hold(reins_.lock);
    reins_.most = session.samples.size();
    reins_.ends = true;
  }
  events_until(listening, [&](const auto&) { return listening.stopped(); });
  const auto blocks = logbook::Logbook(folder_.path("book")).blocks();
  ASSERT_EQ(blocks.size(), 1U);
  ASSERT_EQ(blocks[0].shots.size(), 2U);
  for (std::size_t k = 0; k < 2; ++k) EXPECT_NEAR(blocks[0].shots[k].shot.onset_s, session.edges_s[k + 2], 0.0003);
}

TEST_F(ListeningThreads, BlocksAndSetupsChangeByOrderAndUnknownOnesDoNot) {
  made_logbook(folder_.path("book"));
  const MadeSession session = made_session(3);
  const auto until = [&](double second, bool ends) {
    const std::scoped_lock hold(reins_.lock);
    reins_.most = static_cast<std::size_t>(second * kSessionRate_hz);
    reins_.ends = ends;
  };
  until(2.5, false);  // in the middle of the first shot
  Listening listening(options(), source(session.samples));
  events_until(listening, at_least<ShotMeasured>(1));
  listening.next_setup("no such thing");
  listening.next_setup("damped", "tighter");
  until(6.9, false);
  events_until(listening, at_least<BlockEnded>(1));
  until(11.0, false);
  events_until(listening, at_least<ShotKept>(1));
  listening.next_block("third");
  events_until(listening, at_least<BlockEnded>(1));
  until(1e6, true);
  events_until(listening, [&](const auto&) { return listening.stopped(); });
  const auto blocks = logbook::Logbook(folder_.path("book")).blocks();
  ASSERT_EQ(blocks.size(), 3U);
  EXPECT_EQ(blocks[0].setup, "bare");
  EXPECT_EQ(blocks[1].setup, "damped");
  EXPECT_EQ(blocks[1].note, "tighter");
  EXPECT_EQ(blocks[2].setup, "damped");
  EXPECT_EQ(blocks[2].note, "third");
  for (const auto& block : blocks) {
    ASSERT_EQ(block.shots.size(), 1U);
    EXPECT_TRUE(block.shots[0].dropped.empty());
    EXPECT_FALSE(block.shots[0].analyser.empty());
  }
}

TEST_F(ListeningThreads, AnUnknownSetupOrADeviceThatIsNotThereFailsInOneSentence) {
  made_logbook(folder_.path("book"));
  auto how = options();
  how.setup = "baree";
  auto failed = only<Failed>(hear(how, source({0.0F})));
  ASSERT_EQ(failed.size(), 1U);
  EXPECT_NE(failed[0].sentence.find("did you mean 'bare'"), std::string::npos);
  failed = only<Failed>(hear(options(), []() -> std::unique_ptr<audio::SoundSource> { throw DeviceFailure("no microphone"); }));
  ASSERT_EQ(failed.size(), 1U);
  EXPECT_EQ(failed[0].sentence, "no microphone");
}

TEST_F(ListeningThreads, ALostSourceEndsTheBlockAndIsOpenedAgain) {
  made_logbook(folder_.path("book"));
  const MadeSession session = made_session(2);
  reins_.most = static_cast<std::size_t>(5.0 * kSessionRate_hz);
  int opened = 0;
  Listening listening(options(), [&]() -> std::unique_ptr<audio::SoundSource> {
    if (++opened == 2) throw DeviceFailure("still away");
    return std::make_unique<audio::MemorySource>(session.samples, kSessionRate_hz, reins_);
  });
  events_until(listening, at_least<ShotKept>(1));
  {
    const std::scoped_lock hold(reins_.lock);
    reins_.health.pulse = audio::SourcePulse::lost;
  }
  const auto lost = events_until(listening, at_least<BlockEnded>(1));
  ASSERT_EQ(only<SourceLost>(lost).size(), 1U);
  {
    const std::scoped_lock hold(reins_.lock);
    reins_.health = {};
    reins_.most = session.samples.size();
  }
  const auto back = events_until(listening, [&](const auto&) { return listening.stopped(); });
  ASSERT_EQ(only<SourceOpened>(back).size(), 1U);
  EXPECT_TRUE(only<SourceOpened>(back)[0].again);
  EXPECT_EQ(opened, 3);
  const auto blocks = logbook::Logbook(folder_.path("book")).blocks();
  ASSERT_EQ(blocks.size(), 2U);
  EXPECT_EQ(blocks[0].shots.size(), 1U);
  EXPECT_EQ(blocks[1].shots.size(), 2U);
}

TEST_F(ListeningThreads, LossesBecomeFindingsOfTheBlockAndOfTheShotsNearby) {
  made_logbook(folder_.path("book"));
  const MadeSession session = made_session(2, 20.0);
  reins_.most = static_cast<std::size_t>(4.5 * kSessionRate_hz);
  Listening listening(options(), source(session.samples));
  events_until(listening, at_least<ShotKept>(1));
  {
    const std::scoped_lock hold(reins_.lock);
    reins_.health.overruns = 2;
    reins_.health.lost_frames = 24000;
    reins_.health.glitches = 1;
    reins_.health.missing_s = 1.5;
  }
  const auto told = events_until(listening, at_least<Remark>(1));
  EXPECT_EQ(only<Remark>(told)[0].finding.code, "overrun");
  {
    const std::scoped_lock hold(reins_.lock);
    reins_.most = session.samples.size();
  }
  events_until(listening, [&](const auto&) { return listening.stopped(); });
  const auto blocks = logbook::Logbook(folder_.path("book")).blocks();
  ASSERT_EQ(blocks.size(), 1U);
  for (const char* code : {"overrun", "device_glitch", "sound_missing"}) EXPECT_TRUE(has_finding(blocks[0].findings, code)) << code;
  ASSERT_EQ(blocks[0].shots.size(), 2U);
  EXPECT_TRUE(has_finding(blocks[0].shots[0].shot.findings, "sound_lost"));
  EXPECT_FALSE(has_finding(blocks[0].shots[1].shot.findings, "sound_lost"));
}

}  // namespace
}  // namespace ringfall::intake
