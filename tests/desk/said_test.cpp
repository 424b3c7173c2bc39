// SPDX-License-Identifier: GPL-3.0-or-later
// Words changed and taken away, a missed shot, a moved edge, a block left out: by hand, and undone.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "audio/sound_writer.h"
#include "base/version.h"
#include "desk/places/block_view.h"
#include "desk/desk_hands.h"
#include "intake/demo_evening.h"
#include "support/demo_fives.h"
#include "intake/logbook_intake.h"

namespace ringfall::desk {
namespace {

class SayingHands : public DeskHands {
 protected:
  void look_at_shot(std::size_t index) {
    id = desk.book->shot(desk.book->shots[index]).id;
    desk.choose(id);
    desk.place = Place::shot;
    hands.settle();
  }
  std::int64_t id = 0;
};

TEST_F(SayingHands, ChangesAComment) {
  open_demo();
  look_at_shot(2);
  const auto before = kept(book, id).comments.at(0);
  ASSERT_TRUE(before.hum);
  hands.press("##change " + std::to_string(before.id));
  hands.press("hum 10");
  hands.retype("words", "another word");
  hands.press("Keep the change");
  hands.settle();
  const auto now = kept(book, id).comments;
  ASSERT_EQ(now.size(), 1U);
  EXPECT_EQ(now[0].id, before.id);
  EXPECT_EQ(now[0].hum, 10.0);
  EXPECT_EQ(now[0].loud, before.loud) << "what was not touched stays";
  EXPECT_EQ(now[0].words, "another word");
  EXPECT_FALSE(now[0].changed_at.empty());
  hands.press("##undo");
  hands.settle();
  const auto back = kept(book, id).comments.at(0);
  EXPECT_EQ(back.hum, before.hum);
  EXPECT_EQ(back.words, before.words);
  EXPECT_EQ(back.changed_at, before.changed_at);
}

TEST_F(SayingHands, LeavesACommentAsItWas) {
  open_demo();
  look_at_shot(2);
  const auto before = kept(book, id).comments.at(0);
  hands.press("##change " + std::to_string(before.id));
  hands.press("hum 10");
  hands.press("As it was");
  EXPECT_TRUE(hands.sees("Keep the words"));
  hands.settle();
  EXPECT_EQ(kept(book, id).comments.at(0).hum, before.hum);
}

TEST_F(SayingHands, TakesACommentAwayAndBringsItBack) {
  open_demo();
  look_at_shot(3);
  const auto before = kept(book, id).comments;
  ASSERT_EQ(before.size(), 1U);
  hands.press("##take away " + std::to_string(before[0].id));
  hands.settle();
  EXPECT_TRUE(kept(book, id).comments.empty());
  hands.press("##undo");
  hands.settle();
  const auto back = kept(book, id).comments;
  ASSERT_EQ(back.size(), 1U);
  EXPECT_EQ(back[0].id, before[0].id);
  EXPECT_EQ(back[0].words, before[0].words);
  EXPECT_EQ(back[0].said_at, before[0].said_at);
}

TEST_F(SayingHands, MovesTheEdgeWithCtrlAndAClick) {
  open_demo();
  look_at_shot(0);
  const double found_s = kept(book, id).shot.onset_s;
  const auto exposure_db = kept(book, id).shot.levels.exposure_db;
  ASSERT_TRUE(exposure_db);
  // The middle of the wave's picture: from -200 ms or so to 600 ms or so, so about 200 ms after the edge.
  hands.press_in("wave panel 0", 0.5F, 0.5F, true);
  hands.settle();
  const auto corrections = logbook::Logbook(book).corrections();
  ASSERT_EQ(corrections.size(), 1U);
  EXPECT_EQ(corrections[0].kind, logbook::Correction::Kind::moved_edge);
  EXPECT_EQ(corrections[0].shot, id);
  EXPECT_NEAR(corrections[0].found_s.value(), found_s, 1e-9);
  EXPECT_GT(corrections[0].edge_s.value(), found_s + 0.05);
  EXPECT_LT(corrections[0].edge_s.value(), found_s + 0.5);
  // The loud part is before that edge now.
  EXPECT_LT(kept(book, id).shot.levels.exposure_db.value_or(-200.0), *exposure_db - 3.0);
  hands.press_in("wave panel 0", 0.4F, 0.5F);
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).corrections().size(), 1U) << "without Ctrl it is a look only";
  hands.press("##undo");
  hands.settle();
  EXPECT_TRUE(logbook::Logbook(book).corrections().empty());
  EXPECT_NEAR(kept(book, id).shot.onset_s, found_s, 1e-9);
  EXPECT_NEAR(kept(book, id).shot.levels.exposure_db.value(), *exposure_db, 0.01);
}

/// A logbook whose one block was found without its third shot, and the recording beside it.
class MissedHands : public DeskHands {
 protected:
  void open_with_a_missed_shot() {
    const std::string wav = folder.path("evening.wav");
    audio::write_wav(wav, intake::demo_samples(five_shot_blocks(), 0), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
    auto made = logbook::Logbook::start(book, {"made-up bow", "", "", std::nullopt, 20.0, "", std::nullopt});
    made.add_setup({"bare", "", false, std::nullopt});
    auto recording = intake::measure_recording(wav, {});
    ASSERT_EQ(recording.shots.size(), 5U);
    edge_s = recording.shots[2].onset_s;
    length_s = recording.duration_s;
    recording.shots.erase(recording.shots.begin() + 2);
    recording.places.erase(recording.places.begin() + 2);
    intake::add_recording(made, recording, {}, {"bare", "", ""});
    desk.open(book);
    hands.settle();
    hands.press("block 1");
    hands.settle();
  }
  std::vector<logbook::KeptShot> shots() const { return logbook::Logbook(book).blocks().at(0).shots; }
  double edge_s = 0.0;
  double length_s = 0.0;
};

TEST_F(MissedHands, PointsAtAMissedShotInTheRecording) {
  open_with_a_missed_shot();
  // The picture shows the whole recording; a hand some 20 ms off still means the edge.
  ASSERT_TRUE(hands.sees("recording picture panel 0"));
  const Place_px place = hands.places().at("recording picture panel 0");
  ASSERT_LT(length_s / static_cast<double>(place.high.x - place.low.x), 0.1) << "a pixel must be less than the reach";
  hands.press_in("recording picture panel 0", static_cast<float>((edge_s + 0.01) / length_s), 0.5F);
  hands.press("Keep the missed shot");
  hands.settle();
  ASSERT_EQ(shots().size(), 5U) << (desk.notices.empty() ? "" : desk.notices.back().words);
  EXPECT_NEAR(shots()[2].shot.onset_s, edge_s, 0.002);
  EXPECT_FALSE(shots()[2].analyser.empty());
  const auto corrections = logbook::Logbook(book).corrections();
  ASSERT_EQ(corrections.size(), 1U);
  EXPECT_EQ(corrections[0].kind, logbook::Correction::Kind::missed_shot);
  EXPECT_EQ(desk.chosen, shots()[2].id);
  hands.press("##undo");
  hands.settle();
  EXPECT_EQ(shots().size(), 4U);
  EXPECT_TRUE(logbook::Logbook(book).corrections().empty());
}

// Someone said something of it elsewhere meanwhile: then it can't go, and nothing else is claimed.
TEST_F(MissedHands, SaysWhyAMissedShotCantBeTakenBack) {
  open_with_a_missed_shot();
  hands.type("missed at", std::to_string(edge_s));
  hands.press("Keep the missed shot");
  hands.settle();
  ASSERT_EQ(shots().size(), 5U);
  logbook::Logbook(book).add_comment(shots()[2].id, {"", 5.0, {}, {}, {}, ""});
  desk.notices.clear();
  hands.press("##undo");
  hands.settle();
  EXPECT_EQ(shots().size(), 5U);
  ASSERT_EQ(desk.notices.size(), 1U) << "not that it was taken back";
  EXPECT_TRUE(desk.notices.back().trouble);
  EXPECT_NE(desk.notices.back().words.find("has comments"), std::string::npos) << desk.notices.back().words;
}

TEST_F(MissedHands, WritesWhenTheMissedShotWas) {
  open_with_a_missed_shot();
  hands.type("missed at", std::to_string(edge_s));
  hands.press("Keep the missed shot");
  hands.settle();
  ASSERT_EQ(shots().size(), 5U) << (desk.notices.empty() ? "" : desk.notices.back().words);
  EXPECT_NEAR(shots()[2].shot.onset_s, edge_s, 1e-4);
  hands.press("Back to the shots");
  EXPECT_TRUE(hands.sees("shot 1"));
}

TEST_F(MissedHands, SaysOnTheWaveThatAShotWasMissedThere) {
  open_with_a_missed_shot();
  const auto first = shots()[0];
  desk.choose(first.id);
  desk.place = Place::shot;
  hands.settle();
  hands.press_in("wave panel 0", 0.5F, 0.5F, true, true);
  hands.settle();
  ASSERT_EQ(shots().size(), 5U) << (desk.notices.empty() ? "" : desk.notices.back().words);
  const double after_s = shots()[1].shot.onset_s - first.shot.onset_s;
  EXPECT_GT(after_s, 0.05);
  EXPECT_LT(after_s, 0.5);
  EXPECT_EQ(logbook::Logbook(book).corrections().at(0).kind, logbook::Correction::Kind::missed_shot);
}

TEST_F(MissedHands, SaysWhatIsWrongWhenTheRecordingIsGone) {
  open_with_a_missed_shot();
  std::filesystem::remove(folder.path("evening.wav"));
  hands.type("missed at", "0:01.5");
  hands.press("Keep the missed shot");
  hands.settle();
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_TRUE(desk.notices.back().trouble);
  EXPECT_NE(desk.notices.back().words.find("evening.wav"), std::string::npos) << desk.notices.back().words;
  EXPECT_EQ(shots().size(), 4U);
}

TEST_F(MissedHands, ReadsTheRecordingWhereItIsNow) {
  open_with_a_missed_shot();
  std::filesystem::rename(folder.path("evening.wav"), folder.path("moved.wav"));
  hands.press("Back to the shots");
  hands.press("block 1");
  hands.settle();
  EXPECT_FALSE(hands.sees("recording picture"));
  hands.retype("block recording", folder.path("moved.wav"));
  hands.key(Key::enter);
  hands.settle();
  EXPECT_TRUE(hands.sees("recording picture"));
}

TEST_F(MissedHands, LeavesTheBlockOutAndTakesItInAgain) {
  open_with_a_missed_shot();
  hands.type("block reason", "gusts all the time");
  hands.press("Leave the block out");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).dropped, "gusts all the time");
  hands.press("Take the block in again");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).dropped, "");
}

TEST_F(SayingHands, MeasuresOlderShotsAgainAndTakesItBack) {
  put_demo(book);
  shot::Shot other = kept(book, 1).shot;
  other.hum = 9.9;
  const double hum = kept(book, 1).shot.hum.value();
  logbook::Logbook(book).set_numbers(1, other, "0.0.1");
  desk.open(book);
  hands.settle();
  EXPECT_EQ(desk.book->older, 1U);
  hands.press("Measure again");
  hands.settle();
  EXPECT_EQ(kept(book, 1).analyser, kVersion);
  EXPECT_NEAR(kept(book, 1).shot.hum.value(), hum, 1e-6);
  EXPECT_FALSE(hands.sees("Measure again"));
  hands.press("##undo");
  hands.settle();
  EXPECT_EQ(kept(book, 1).analyser, "0.0.1");
  EXPECT_EQ(kept(book, 1).shot.hum, 9.9);
}

TEST(Overview, ReadsTimesAsPeopleWriteThem) {
  EXPECT_EQ(seconds_of("83.5"), 83.5);
  EXPECT_EQ(seconds_of("1:23.5"), 83.5);
  EXPECT_EQ(seconds_of("0:00"), 0.0);
  EXPECT_EQ(clock_words(83.4567), "1:23.457");
  EXPECT_EQ(clock_words(3.25), "0:03.250");
  for (const char* bad : {"", ":", "1:", "1:60", "-1", "soon", "1:2:3"}) EXPECT_FALSE(seconds_of(bad)) << bad;
}

TEST(Overview, FindsTheSteepestRiseWithinReachOfTheHand) {
  Overview overview;
  overview.peak_db.assign(1000, -80.0F);
  std::fill(overview.peak_db.begin() + 500, overview.peak_db.begin() + 700, -10.0F);
  std::fill(overview.peak_db.begin() + 480, overview.peak_db.begin() + 500, -60.0F);  // a click before it
  EXPECT_NEAR(steepest_near(overview, 0.490), 0.500, 1e-9);
  EXPECT_NEAR(steepest_near(overview, 0.549), 0.500, 1e-9);
  EXPECT_NEAR(steepest_near(overview, 0.600), 0.600, 1e-9) << "out of reach: where it was pointed at";
  EXPECT_NEAR(steepest_near(overview, 5.0), 1.0, 1e-9) << "not past the end";
}

}  // namespace
}  // namespace ringfall::desk
