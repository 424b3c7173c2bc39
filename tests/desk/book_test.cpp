// SPDX-License-Identifier: GPL-3.0-or-later
// What the Book and its first page do: sessions, blocks with the wrong set-up, folders looked through. By hand.
#include <gtest/gtest.h>

#include <filesystem>

#include "audio/sound_writer.h"
#include "desk/desk_hands.h"
#include "intake/demo_evening.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

class BookHands : public DeskHands {
 protected:
  std::string put_recording(const std::string& name) {
    const std::string wav = folder.path(name);
    audio::write_wav(wav, quieter_demo_samples(0), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
    return wav;
  }
};

TEST_F(BookHands, PlacesStayClosedWithoutALogbook) {
  hands.press("Range");
  EXPECT_EQ(desk.place, Place::book);
  hands.key(static_cast<Key>(index_of(Key::f1) + 3));
  EXPECT_EQ(desk.place, Place::book);
  open_demo();
  hands.press("Range");
  EXPECT_EQ(desk.place, Place::range);
}

// The button lies in the place that draws the logbook: it must not go away under it.
TEST_F(BookHands, ClosesTheLogbookAndOpensItAgain) {
  open_demo();
  hands.press("Close the logbook");
  hands.settle();
  EXPECT_FALSE(desk.book);
  EXPECT_EQ(desk.place, Place::book);
  EXPECT_FALSE(hands.sees("Close the logbook"));
  desk.open(book);
  hands.settle();
  ASSERT_TRUE(desk.book);
  EXPECT_EQ(desk.book->path, book);
}

TEST_F(BookHands, StartsASessionThatTheNextRecordingBelongsTo) {
  open_demo();
  const auto before = logbook::Logbook(book).conditions();
  hands.press("New session");
  hands.retype("place", "another hall");
  hands.press("Start the session");
  hands.settle();
  const auto sessions = logbook::Logbook(book).sessions();
  ASSERT_EQ(sessions.size(), 2U);
  EXPECT_EQ(sessions[1].place, "another hall");
  EXPECT_EQ(sessions[1].bow, before.bow);
  EXPECT_EQ(sessions[1].chain, before.chain);
  EXPECT_EQ(sessions[1].distance_m, before.distance_m);
  EXPECT_EQ(sessions[0].place, before.place);
  EXPECT_FALSE(hands.sees("Start the session")) << "it is done";
  desk.open(put_recording("evening.wav"));
  hands.settle();
  hands.press("Measure and keep it");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().back().session, sessions[1].session);
}

// 18 m are 19.7 yd in the field; as long as nobody changes it, it stays 18 m. An empty field says nothing.
TEST_F(BookHands, ANewSessionTakesOverWhatHoldsAndNoMore) {
  put_demo(book);
  {
    logbook::Logbook calibrated(book);
    auto session = calibrated.conditions();
    session.full_scale_db_spl = 118.0;
    session.microphone = "measuring microphone";
    session.chain = "gain 3";
    calibrated.change_session(session);
  }
  desk.preferences.archers_units = true;
  desk.open(book);
  hands.settle();
  hands.press("New session");
  hands.press("Start the session");
  hands.settle();
  hands.press("New session");
  hands.retype("chain", "gain 5");
  hands.retype("distance", "20");
  hands.retype("temperature", "68");
  hands.press("Start the session");
  hands.settle();
  hands.press("New session");
  hands.retype("distance", " ");
  hands.key(Key::backspace);
  hands.press("Start the session");
  hands.settle();
  const auto sessions = logbook::Logbook(book).sessions();
  ASSERT_EQ(sessions.size(), 4U);
  EXPECT_EQ(sessions[1].distance_m, 18.0);
  EXPECT_EQ(sessions[1].full_scale_db_spl, 118.0) << "the same chain";
  EXPECT_EQ(sessions[1].microphone, "measuring microphone");
  EXPECT_NEAR(sessions[2].distance_m.value(), 18.288, 1e-9) << "20 yd of 0.9144 m: a bare number is in the person's units";
  EXPECT_NEAR(sessions[2].temperature_c.value(), 20.0, 1e-9);
  EXPECT_FALSE(sessions[2].full_scale_db_spl) << "another gain: it is not calibrated any more";
  EXPECT_EQ(sessions[2].microphone, "");
  EXPECT_FALSE(sessions[3].distance_m);
}

TEST_F(BookHands, AirThatNoBowIsShotInIsSaidAndNothingStarted) {
  open_demo();
  hands.press("New session");
  hands.retype("temperature", "68");
  hands.press("Start the session");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).sessions().size(), 1U);
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_TRUE(desk.notices.back().words.starts_with("the air must be between -40 and 60 C"));
  EXPECT_TRUE(hands.sees("Start the session")) << "what was typed is still there";
}

TEST_F(BookHands, ADistanceThatIsNoneIsSaidAndNothingStarted) {
  open_demo();
  hands.press("New session");
  hands.retype("distance", "far");
  hands.press("Start the session");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).sessions().size(), 1U);
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_TRUE(desk.notices.back().trouble);
  hands.press("Not now##session");
  hands.frames(1);
  EXPECT_TRUE(hands.sees("shot 1"));
}

TEST_F(BookHands, PutsABlockRightThatWasKeptWithTheWrongSetUp) {
  open_demo();
  const auto was = logbook::Logbook(book).blocks().at(0);
  ASSERT_EQ(was.setup, "bare");
  hands.press("block 1");
  hands.settle();
  hands.press("felt cuff##block setup");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).setup, "felt cuff");
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).note, was.note);
  hands.press("##undo");
  hands.settle();
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).setup, "bare");
  EXPECT_EQ(logbook::Logbook(book).blocks().at(0).note, was.note);
}

TEST_F(BookHands, ARecordingIsLookedThroughBeforeItIsAdded) {
  open_demo();
  hands.press("Add a recording");
  hands.type("recording", folder.path("none.wav"));
  hands.settle();
  EXPECT_FALSE(hands.sees("added recording picture"));
  hands.press("Not now");
  desk.open(put_recording("evening.wav"));
  hands.settle();
  ASSERT_NE(desk.overview, nullptr);
  EXPECT_EQ(desk.overview->block, 0);
  EXPECT_TRUE(hands.sees("added recording picture"));
  desk.preferences.words_first = true;
  hands.frames(1);
  EXPECT_FALSE(hands.sees("added recording picture")) << "it would give its levels away";
}

// A block's recording at a glance and that of a recording to be added come and go in one place.
TEST_F(BookHands, ABlocksRecordingIsReadAgainAfterAnotherWasLookedThrough) {
  open_demo();
  const std::string wav = put_recording("evening.wav");
  desk.add_recording(wav, {"bare", "", {}});
  desk.settle();
  const std::string other = put_recording("other.wav");
  const std::string name = "block " + std::to_string(desk.book->blocks.back().number);
  desk.looked_into = desk.book->blocks.back().number;
  hands.settle();
  ASSERT_TRUE(hands.sees("recording picture")) << name;
  desk.open(other);
  hands.settle();
  ASSERT_TRUE(hands.sees("added recording picture"));
  hands.press("Not now");
  hands.settle();
  EXPECT_TRUE(hands.sees("recording picture"));
}

TEST_F(BookHands, TheListOfAFolderFollowsIt) {
  open_demo();
  put_recording("first.wav");
  hands.press("Add a recording");
  hands.retype("folder", folder.path(""));
  hands.key(Key::enter);
  hands.frames(2);
  EXPECT_TRUE(hands.sees("first.wav"));
  EXPECT_FALSE(hands.sees("book.ringfall")) << "a logbook is no recording";
  put_recording("second.wav");
  hands.frames(70);  // a second of the hands' clock
  EXPECT_TRUE(hands.sees("second.wav"));
}

}  // namespace
}  // namespace ringfall::desk
