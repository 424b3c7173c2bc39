// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/measuring.h"

#include <gtest/gtest.h>

#include "base/failure.h"
#include "base/version.h"
#include "support/made_session.h"
#include "support/test_folder.h"
#include "work/adding.h"

namespace ringfall::work {
namespace {

class Measuring : public testing::Test {
 protected:
  Measuring() {
    made_logbook(folder_.path("book"), 18.0);
    audio::write_wav(folder_.path("a.wav"), made_session(3).samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
    book_.emplace(folder_.path("book"));
    intake::RecordingOptions options;
    options.scale.full_scale_db_spl = kSessionFullScale_db;
    options.settings.find.distance_m = 18.0;
    const auto kept = keep_recordings(*book_, {intake::measure_recording(folder_.path("a.wav"), options)}, options.settings.find, {{"bare", "", ""}});
    ids_ = kept.at(0).block.value().shots;
  }
  logbook::KeptShot kept(std::size_t k) const { return book_->blocks().at(0).shots.at(k); }
  /// As an earlier version might have left it.
  void age(std::size_t k) {
    shot::Shot old = kept(k).shot;
    old.hum = 9.5;
    book_->set_numbers(ids_.at(k), old, "0.0");
  }

  const TestFolder folder_;
  std::optional<logbook::Logbook> book_;
  std::vector<std::int64_t> ids_;
};

TEST_F(Measuring, AllOrNone) {
  const auto hum = kept(0).shot.hum;
  for (std::size_t k = 0; k < 3; ++k) age(k);
  int asked = 0;
  EXPECT_TRUE(measure_again(*book_, Again::all, [&](double) { return ++asked < 3; }).stopped);
  EXPECT_EQ(asked, 3);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(kept(k).shot.hum, 9.5) << "stopped: all as they were";
  const auto done = measure_again(*book_, Again::all);
  EXPECT_EQ(done.before.size(), 3U);
  EXPECT_EQ(kept(0).shot.hum, hum);
  put_back(*book_, done.before);
  EXPECT_EQ(kept(2).shot.hum, 9.5);
  EXPECT_EQ(kept(2).analyser, "0.0");
}

TEST_F(Measuring, OfOtherVersionsOnlyAndDamagedSoundIsNamed) {
  age(0);
  age(1);
  book_->database().prepare("UPDATE shot SET clip = ? WHERE id = ?").with(logbook::Blob{"no sound"}, ids_[1]).run();
  const auto done = measure_again(*book_, Again::of_other_versions);
  ASSERT_EQ(done.before.size(), 1U);
  EXPECT_EQ(done.before[0].id, ids_[0]);
  ASSERT_EQ(done.failed.size(), 1U);
  EXPECT_EQ(done.failed[0].shot, ids_[1]);
  EXPECT_NE(done.failed[0].sentence.find("damaged"), std::string::npos);
  EXPECT_EQ(kept(0).analyser, kVersion);
  EXPECT_EQ(kept(1).analyser, "0.0") << "as it was";
}

// A program that dies, or sound that can't be read, between moving and measuring must not leave the one without the other.
TEST_F(Measuring, AnEdgeIsMovedAndMeasuredOrNeither) {
  const double found_s = kept(0).shot.onset_s;
  move_edge(*book_, ids_[0], found_s + 0.002);
  EXPECT_NEAR(kept(0).shot.onset_s, found_s + 0.002, 1e-4);
  EXPECT_EQ(kept(0).analyser, kVersion);
  EXPECT_EQ(take_back(*book_, ids_[0]), logbook::Correction::Kind::moved_edge);
  EXPECT_NEAR(kept(0).shot.onset_s, found_s, 1e-4);
  book_->database().prepare("UPDATE shot SET clip = ? WHERE id = ?").with(logbook::Blob{"no sound"}, ids_[1]).run();
  const auto before = kept(1);
  EXPECT_THROW(move_edge(*book_, ids_[1], before.shot.onset_s + 0.002), LogbookFailure);
  EXPECT_EQ(kept(1).shot.onset_s, before.shot.onset_s);
  EXPECT_EQ(kept(1).analyser, kVersion) << "its numbers are there";
  EXPECT_EQ(book_->corrections().size(), 0U);
}

TEST_F(Measuring, ARecordingIsKeptWithTheSessionItIsSaidToBelongTo) {
  book_->add_bow({"longbow"});
  auto next = book_->conditions();
  next.bow = "longbow";
  next.started_at = "";
  book_->start_session(next);
  audio::write_wav(folder_.path("b.wav"), made_session(1, 5.0, 77).samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  const auto recording = intake::measure_recording(folder_.path("b.wav"), {});
  // "damped" is the first session's bow's.
  Addition addition{{"damped", "", ""}};
  addition.place.session = 1;
  EXPECT_FALSE(keep_recordings(*book_, {recording}, {}, addition).at(0).made_setup);
  EXPECT_EQ(book_->blocks().at(1).bow, "made-up bow");
  EXPECT_TRUE(book_->setups("longbow").empty());
}

}  // namespace
}  // namespace ringfall::work
