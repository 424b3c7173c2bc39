// SPDX-License-Identifier: GPL-3.0-or-later
// Long work that is stopped: nothing half-done stays, and nothing a person asked for is lost.
#include <gtest/gtest.h>

#include <filesystem>

#include "audio/sound_writer.h"
#include "desk/made_port.h"
#include "desk/sharing_hands.h"
#include "intake/demo_evening.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

TEST_F(SharingHands, StoppingARecordingKeepsNothingOfItAndLosesNothing) {
  open_demo();
  const std::string wav = folder.path("long.wav");
  std::vector<float> samples;
  for (std::size_t k = 0; k < 3; ++k) {
    const auto block = quieter_demo_samples(k);
    samples.insert(samples.end(), block.begin(), block.end());
  }
  audio::write_wav(wav, samples, intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  const std::size_t blocks = desk.book->blocks.size();
  hold_at(0.3);
  desk.add_recording(wav, {"clay ring", "", {}});
  stop_by_hand();
  EXPECT_EQ(logbook::Logbook(book).blocks().size(), blocks);
  EXPECT_TRUE(said(desk, "Stopped"));
  logbook::Logbook(book).check_whole();
}

TEST_F(SharingHands, StoppingTheComparisonLeavesTheFirstLookAndItGoesOnWhenAskedSlowUnderSanitizer) {
  open_demo();
  hold_at(0.3);
  hands.press("Compare");
  stop_by_hand();
  ASSERT_NE(desk.comparison, nullptr);
  ASSERT_FALSE(desk.comparison->with_sound);
  EXPECT_TRUE(desk.compare_stopped);
  hands.press("Go on listening to them");
  hands.settle();
  EXPECT_TRUE(desk.comparison->with_sound);
  EXPECT_FALSE(hands.sees("Go on listening to them"));
}

// When all shots are heard the tones are sought, compared and drawn: that can be stopped as well, each step of it.
TEST_F(SharingHands, TheComparisonCanBeStoppedAfterTheLastShotTooSlowUnderSanitizer) {
  open_demo();
  hands.press("Compare");
  hands.settle();
  for (const double share : {0.87, 0.91, 0.93, 0.94, 0.95}) {
    hold_at(share);
    desk.compare_again();
    stop_by_hand();
    ASSERT_NE(desk.comparison, nullptr);
    EXPECT_FALSE(desk.comparison->with_sound) << share;
    EXPECT_TRUE(desk.compare_stopped) << share;
  }
}

TEST_F(SharingHands, APaperOfAReadyComparisonCanBeStoppedSlowUnderSanitizer) {
  open_demo();
  hands.press("Page");
  hands.settle();
  for (const double share : {0.97, 0.98}) {
    hold_at(share);
    desk.write_report(folder.path("book-report.pdf"));
    stop_by_hand();
    EXPECT_TRUE(said(desk, "Stopped; nothing was written"));
    EXPECT_FALSE(fs::exists(folder.path("book-report.pdf"))) << share;
    desk.notices.clear();
  }
}

TEST_F(SharingHands, AComparisonDoesNotStopWhatAPersonAskedForSlowUnderSanitizer) {
  open_demo();
  const std::string wav = folder.path("block.wav");
  audio::write_wav(wav, quieter_demo_samples(0), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  const std::size_t blocks = desk.book->blocks.size();
  hands.press("Compare");
  desk.quick.wait_idle();
  hands.frames(2);
  ASSERT_NE(desk.comparison, nullptr);
  desk.add_recording(wav, {"clay ring", "", {}});
  hands.frames(3);
  hands.press("ping##question");  // asks for another comparison while the recording is on its way
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().size(), blocks + 1);
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr);
  EXPECT_TRUE(desk.comparison->with_sound);
  EXPECT_EQ(desk.comparison->report.main_number->id, "ping");
  EXPECT_EQ(desk.comparison->report.source.session.blocks.size(), blocks + 1) << "the new block is in it";
}

TEST_F(SharingHands, StoppingAReportWritesNoneSlowUnderSanitizer) {
  open_demo();
  hands.press("Page");
  hands.settle();
  hold_at(0.3);
  desk.write_report(folder.path("book-report.pdf"));
  stop_by_hand();
  EXPECT_TRUE(said(desk, "Stopped; nothing was written"));
  EXPECT_FALSE(fs::exists(folder.path("book-report.pdf")));
}

TEST_F(SharingHands, StoppingTheExportLeavesNoHalfOfIt) {
  open_demo();
  hold_at(0.3);
  desk.export_all(folder.path("out"));
  stop_by_hand();
  EXPECT_TRUE(said(desk, "Stopped"));
  EXPECT_FALSE(fs::exists(folder.path("out")));
}

TEST_F(SharingHands, StoppingTheInventedEveningLeavesNoHalfOfIt) {
  const std::string half = folder.path("half.ringfall");
  hold_at(0.3);
  desk.make_demo(half);
  stop_by_hand();
  EXPECT_FALSE(fs::exists(half));
  EXPECT_EQ(desk.book, nullptr);
  desk.make_demo(half);
  hands.settle();
  ASSERT_NE(desk.book, nullptr);
  EXPECT_EQ(desk.book->blocks.size(), intake::demo_blocks().size());
}

TEST_F(SharingHands, StoppingTheRemeasuringLeavesEveryShotAsItWas) {
  put_demo(book);
  const double hum = kept(book, 1).shot.hum.value();
  {
    logbook::Logbook older(book);
    for (const auto& block : older.blocks()) {
      for (const auto& shot : block.shots) older.set_numbers(shot.id, shot.shot, "0.0.1");
    }
  }
  desk.open(book);
  hands.settle();
  hold_at(0.3);
  desk.remeasure_older();
  stop_by_hand();
  EXPECT_TRUE(said(desk, "Stopped"));
  for (const auto& block : logbook::Logbook(book).blocks()) {
    for (const auto& shot : block.shots) EXPECT_EQ(shot.analyser, "0.0.1") << shot.id;
  }
  EXPECT_EQ(kept(book, 1).shot.hum, hum);
}

TEST_F(SharingHands, StoppingTheSeasonIsSaidAndItGoesOnWhenAsked) {
  open_demo();
  desk.place = Place::season;
  hold_at(0.3);
  desk.read_season_again();
  stop_by_hand();
  ASSERT_TRUE(desk.season_stopped);
  EXPECT_EQ(desk.season, nullptr);
  hands.press("Go on##season");
  hands.settle();
  EXPECT_NE(desk.season, nullptr);
}

// A microphone that is quiet for good: the check would wait for a clap.
TEST(StoppableCheck, EndsAtOnceWhenStopped) {
  const TestFolder folder;
  const auto port = std::make_shared<MadePort>();
  port->heard.assign(48000, 0.001F);
  port->reins.ends = false;
  Desk desk({}, [] {}, port);
  put_demo(folder.path("book.ringfall"));
  Hands hands(desk);
  desk.open(folder.path("book.ringfall"));
  hands.settle();
  desk.place = Place::range;
  hands.settle();
  hands.press("Check it");
  hands.frames(3);
  ASSERT_TRUE(desk.slow.busy());
  hands.press("Stop");
  hands.settle();  // would wait for good otherwise
  EXPECT_TRUE(desk.chain_lines.empty());
  EXPECT_TRUE(said(desk, "Stopped"));
}

}  // namespace
}  // namespace ringfall::desk
