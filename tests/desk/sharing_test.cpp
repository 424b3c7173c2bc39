// SPDX-License-Identifier: GPL-3.0-or-later
// What the Page writes, and long work that is stopped: nothing half-done stays.
#include <gtest/gtest.h>

#include <algorithm>
#include <condition_variable>
#include <filesystem>
#include <fstream>
#include <mutex>

#include "audio/sound_writer.h"
#include "compare/logbook_session.h"
#include "desk/desk_hands.h"
#include "desk/made_port.h"
#include "intake/demo_evening.h"
#include "logbook/export.h"
#include "report/compare_json.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<std::string> said_in(const Desk& desk) {
  std::vector<std::string> words;
  for (const auto& notice : desk.notices) words.push_back(notice.words);
  return words;
}

bool said(const Desk& desk, const std::string& begin) {
  return std::ranges::any_of(said_in(desk), [&](const std::string& words) { return words.starts_with(begin); });
}

/// Holds a lane's thread where its work has done a share, until a hand has pressed Stop: no race with the clock.
class Hold {
 public:
  /// The desk's wake: called from the threads of both lanes.
  void pass() {
    std::unique_lock guard(lock_);
    if (lane_ == nullptr) return;
    const auto busy = lane_->busy();
    if (!busy || busy->share.value_or(-1.0) < from_) return;
    held_ = true;
    changed_.wait(guard, [this] { return lane_ == nullptr; });
    held_ = false;
  }
  void at(const Lane& lane, double share) {
    const std::lock_guard guard(lock_);
    lane_ = &lane;
    from_ = share;
  }
  void go_on() {
    const std::lock_guard guard(lock_);
    lane_ = nullptr;
    changed_.notify_all();
  }
  bool holds() {
    const std::lock_guard guard(lock_);
    return held_;
  }

 private:
  std::mutex lock_;
  std::condition_variable changed_;
  const Lane* lane_ = nullptr;
  double from_ = 0.0;
  bool held_ = false;
};

class SharingHands : public DeskHands {
 protected:
  explicit SharingHands(const std::shared_ptr<Hold>& held = std::make_shared<Hold>())
      : DeskHands(nullptr, [held] { held->pass(); }), hold(held) {}
  ~SharingHands() override { hold->go_on(); }
  void hold_at(double share) { hold->at(desk.slow, share); }
  /// Draws until the work has got to where it is held, presses Stop there.
  void stop_by_hand() {
    while (!hold->holds()) {
      hands.frames(1);
      ASSERT_TRUE(desk.restless() || hold->holds()) << "it was over before its share was done";
    }
    hands.press("Stop");
    hold->go_on();
    hands.settle();
  }
  std::shared_ptr<Hold> hold;
};

// Read back by the program's own importer, which refuses what is not whole.
TEST_F(SharingHands, WritesEverythingOut) {
  open_demo();
  hands.press("Page");
  hands.press("Write everything");
  hands.settle();
  ASSERT_TRUE(fs::exists(folder.path("book-export/logbook.csv")));
  EXPECT_TRUE(fs::exists(folder.path("book-export/shots.csv")));
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_EQ(desk.notices.back().link, folder.path("book-export"));
  EXPECT_TRUE(hands.sees("##show export folder")) << "a way to it";
  logbook::import_folder(folder.path("book-export"), folder.path("again.ringfall"));
  EXPECT_EQ(logbook::Logbook(folder.path("again.ringfall")).blocks().size(), logbook::Logbook(book).blocks().size());
  hands.press("Write everything");
  hands.settle();
  EXPECT_TRUE(desk.notices.back().trouble) << "nothing is written over";
}

TEST_F(SharingHands, WritesTheComparisonForSpreadsheetsAndProgramsSlowUnderSanitizer) {
  open_demo();
  hands.press("Page");
  hands.settle();
  hands.press("Write the table");
  hands.press("Write the JSON");
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr);
  const auto& source = desk.comparison->report.source;
  EXPECT_TRUE(desk.comparison->with_sound);
  EXPECT_EQ(text_of(folder.path("book-comparison.csv")), report::compare_csv(source.comparison));
  EXPECT_EQ(text_of(folder.path("book-comparison.json")), report::compare_json(source.comparison, source.session));
  EXPECT_TRUE(text_of(folder.path("book-comparison.csv")).starts_with("baseline,setup,"));
  EXPECT_TRUE(hands.sees("##show table file"));
  EXPECT_FALSE(hands.sees("##show paper file")) << "that was not written";
}

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
  desk.add_recording(wav, {"steel plug", "", {}});
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

TEST_F(SharingHands, AComparisonDoesNotStopWhatAPersonAskedForSlowUnderSanitizer) {
  open_demo();
  const std::string wav = folder.path("block.wav");
  audio::write_wav(wav, quieter_demo_samples(0), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  const std::size_t blocks = desk.book->blocks.size();
  hands.press("Compare");
  desk.quick.wait_idle();
  hands.frames(2);
  ASSERT_NE(desk.comparison, nullptr);
  desk.add_recording(wav, {"steel plug", "", {}});
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
