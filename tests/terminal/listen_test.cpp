// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs with sound devices, on files played in and on a private sound server.
#include <gtest/gtest.h>

#include <filesystem>

#include "logbook/logbook.h"
#include "support/made_session.h"
#include "support/null_sink.h"
#include "support/test_folder.h"
#include "terminal/listen_text.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

class ListenVerb : public testing::Test {
 protected:
  ListenVerb() {
    made_logbook(book(), 18.0);
    const MadeSession session = made_session(2);
    audio::write_wav(sound(), session.samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  }
  std::string book() const { return folder_.path("book"); }
  std::string sound() const { return folder_.path("a.wav"); }
  Ran listen(std::vector<std::string> more) const {
    std::vector<std::string> words = {"listen", book(), "--from", sound(), "--speed", "0"};
    words.insert(words.end(), more.begin(), more.end());
    return run_program(words);
  }

  const TestFolder folder_;
};

TEST_F(ListenVerb, KeepsShowsAndRecordsWhatIsPlayedIn) {
  const Ran ran = listen({"--setup", "bare", "--note", "first", "--take", folder_.str()});
  EXPECT_EQ(ran.status, 0) << ran.error;
  EXPECT_NE(ran.out.find("shot 1 at 0:02.00  hum "), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("Block 1 ended: 2 shots"), std::string::npos) << ran.out;
  EXPECT_EQ(ran.error, "");
  const auto blocks = logbook::Logbook(book()).blocks();
  ASSERT_EQ(blocks.size(), 1U);
  EXPECT_EQ(blocks[0].note, "first");
  EXPECT_EQ(blocks[0].shots.size(), 2U);
  // The whole take, packed: its name is the block's file.
  EXPECT_EQ(std::filesystem::path(blocks[0].file).extension(), ".flac");
  EXPECT_TRUE(std::filesystem::exists(blocks[0].file));
}

// "A sound counts once" (docs/logbook.md): what is played in again is kept, since nothing may be lost while somebody shoots, but left out.
TEST_F(ListenVerb, ASoundThatIsKeptAlreadyIsLeftOut) {
  ASSERT_EQ(run_program({"add", book(), sound(), "--setup", "bare"}).status, 0);
  const Ran again = listen({"--setup", "bare"});
  EXPECT_EQ(again.status, 1) << "no shot that counts: " << again.out;
  EXPECT_NE(again.out.find("shot 3 left out: the very sound of shot 1 in block 1 again"), std::string::npos) << again.out;
  EXPECT_NE(again.out.find("Block 2 ended: 0 shots"), std::string::npos) << again.out;
  EXPECT_EQ(again.out.find("counts after all"), std::string::npos) << again.out;
  const auto blocks = logbook::Logbook(book()).blocks();
  ASSERT_EQ(blocks.size(), 2U);
  for (const auto& shot : blocks[1].shots) {
    EXPECT_EQ(shot.dropped, "the very sound of shot " + std::to_string(shot.id - 2) + " in block 1 again");
    EXPECT_FALSE(shot.analyser.empty()) << "it is measured all the same";
  }
  // It can't be taken in beside the other one, but instead of it; and a block comes in again beside doubles that are left out.
  const Ran refused = run_program({"restore", book(), "3"});
  EXPECT_EQ(refused.status, 2);
  EXPECT_NE(refused.error.find("shot 1 of block 1 has the very sound of shot 3"), std::string::npos) << refused.error;
  EXPECT_EQ(run_program({"drop", book(), "1", "--block", "wind"}).status, 0);
  EXPECT_EQ(run_program({"restore", book(), "1", "--block"}).status, 0);
  EXPECT_EQ(run_program({"drop", book(), "1", "plucked"}).status, 0);
  EXPECT_EQ(run_program({"restore", book(), "3"}).status, 0);
  EXPECT_EQ(run_program({"restore", book(), "1"}).status, 2);
  // Nor by taking back that it was none.
  EXPECT_EQ(run_program({"drop", book(), "3", "plucked"}).status, 0);
  EXPECT_EQ(run_program({"restore", book(), "1"}).status, 0);
  EXPECT_EQ(run_program({"correct", book(), "1", "--not-a-shot"}).status, 0);
  EXPECT_EQ(run_program({"restore", book(), "3"}).status, 0);
  EXPECT_EQ(run_program({"correct", book(), "1", "--undo"}).status, 2);
  EXPECT_EQ(logbook::Logbook(book()).corrections().size(), 1U) << "what was said stands";
}

TEST_F(ListenVerb, NewSetUpsMustBeMeant) {
  const Ran slip = listen({"--setup", "damper"});
  EXPECT_EQ(slip.status, 2);
  EXPECT_NE(slip.error.find("did you mean 'damped'"), std::string::npos) << slip.error;
  EXPECT_EQ(listen({"--setup", "damper", "--new"}).status, 0);
  EXPECT_EQ(logbook::Logbook(book()).blocks().at(0).setup, "damper");
}

TEST_F(ListenVerb, PausedItFindsNothing) {
  const Ran ran = listen({"--setup", "bare", "--paused"});
  EXPECT_EQ(ran.status, 1);  // no shot
  EXPECT_TRUE(logbook::Logbook(book()).blocks().empty());
}

TEST_F(ListenVerb, BlindItShowsNoNumbers) {
  auto conditions = logbook::Logbook(book()).conditions();
  conditions.blind = true;
  logbook::Logbook(book()).change_session(conditions);
  const Ran ran = listen({"--setup", "bare"});
  EXPECT_EQ(ran.status, 0) << ran.error;
  EXPECT_NE(ran.out.find("shot 1 at"), std::string::npos);
  EXPECT_EQ(ran.out.find("hum "), std::string::npos) << ran.out;
}

TEST_F(ListenVerb, WhatIsNotThereIsSaidInOneSentence) {
  const Ran file = run_program({"listen", book(), "--setup", "bare", "--from", folder_.path("nothing.wav")});
  EXPECT_EQ(file.status, 3);
  EXPECT_NE(file.error.find("nothing.wav"), std::string::npos) << file.error;
}

TEST_F(ListenVerb, ChainJudgesEveryQuantity) {
  // The first shot, at 2 s, comes too early; the one at 7 s is the clap.
  const Ran ran = run_program({"chain", "--from", sound(), "--speed", "0"});
  EXPECT_NE(ran.out.find("levels: good"), std::string::npos) << ran.out << ran.error;
  EXPECT_NE(ran.out.find("floor before "), std::string::npos);
}

TEST_F(ListenVerb, ADeviceOfASoundServerIsListedHeardAndPlayedTo) {
  if (!NullSink::possible()) GTEST_SKIP() << "no pulseaudio, paplay and pactl here";
  const NullSink sink;
  const Ran devices = run_program({"devices"});
  EXPECT_EQ(devices.status, 0) << devices.error;
  EXPECT_NE(devices.out.find(kNullMicrophone), std::string::npos) << devices.out;
  EXPECT_EQ(devices.error, "") << "the sound libraries are to be quiet";
  ASSERT_EQ(listen({"--setup", "bare"}).status, 0);
  const Ran played = run_program({"play", book(), "1", "2", "--device", "probe_out"});
  EXPECT_EQ(played.status, 0) << played.error;
  EXPECT_EQ(played.out, "shot 1\nshot 2\n");
  const Ran heard = run_program({"listen", book(), "--setup", "bare", "--device", kNullMicrophone, "--for", "2"});
  EXPECT_EQ(heard.status, 1) << heard.error;  // silence: no shot
  EXPECT_NE(heard.out.find("Listening to probe_mon at 48000 Hz"), std::string::npos) << heard.out;
  // Remembered.
  const Ran again = run_program({"listen", book(), "--setup", "bare", "--for", "1"});
  EXPECT_NE(again.out.find("Listening to probe_mon"), std::string::npos) << again.out << again.error;
}

TEST(MeterText, BarPeakAndClipMark) {
  intake::MeterReading reading;
  EXPECT_EQ(meter_text(reading, 6), "[|      ] -120.0 dB, peak -120.0 dB");
  reading = {-40.0, -20.0, -10.0, -50.0, true};
  // -60 .. 0 dB over six marks: 10 dB each.
  EXPECT_EQ(meter_text(reading, 6), "[==-- | ] -40.0 dB, peak -10.0 dB CLIPPED");
}

}  // namespace
}  // namespace ringfall::terminal
