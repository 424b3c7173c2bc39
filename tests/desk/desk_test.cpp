// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/model/desk.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <thread>

#include "audio/paced_file.h"
#include "audio/sound_writer.h"
#include "desk/desk_hands.h"
#include "desk/parts/words.h"
#include "intake/demo_evening.h"

namespace ringfall::desk {
namespace {

// Everything below is done with the hands and asserted on the logbook's file, not on the window's own state.
TEST_F(DeskHands, EveryPlaceIsDrawnForSixtyFramesInBothThemesSlowUnderSanitizer) {
  open_demo();
  for (const plot::Theme theme : {plot::Theme::dark, plot::Theme::light}) {
    desk.preferences.theme = theme;
    for (int k = 0; k < kPlaces; ++k) {
      hands.key(static_cast<Key>(index_of(Key::f1) + k));
      EXPECT_EQ(desk.place, static_cast<Place>(k));
      hands.settle();
      hands.frames(60);
      EXPECT_GT(hands.vertices(), 1500) << place_name(desk.place) << " is nearly empty";
    }
  }
  EXPECT_TRUE(desk.notices.empty()) << desk.notices.front().words;
}

TEST_F(DeskHands, StartsALogbookByTyping) {
  hands.press("Start a logbook");
  desk.settle();
  const std::string file = folder.path("typed.ringfall");
  hands.retype("logbook file", file);
  hands.type("bow", "made-up bow");
  hands.type("distance", "20 yd");
  hands.press("Blind: numbers stay hidden until I have said what I heard##blind");
  hands.press("Start it");
  hands.settle();
  ASSERT_TRUE(std::filesystem::exists(file)) << (desk.notices.empty() ? "" : desk.notices.back().words);
  const auto evening = logbook::Logbook(file).conditions();
  EXPECT_EQ(evening.bow, "made-up bow");
  EXPECT_TRUE(evening.blind);
  // 1 yd = 0.9144 m exactly (international yard and pound, 1959).
  EXPECT_NEAR(evening.distance_m.value_or(0.0), 18.288, 1e-9);
}

TEST_F(DeskHands, AddsADroppedRecordingAsABlock) {
  open_demo();
  const auto blocks = intake::demo_blocks();
  const std::string wav = folder.path("evening.wav");
  audio::write_wav(wav, quieter_demo_samples(0), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  desk.open(wav);  // as a drop on the window does
  hands.settle();
  EXPECT_TRUE(hands.sees("added recording picture panel 0")) << "is it the right one?";
  hands.press("clay ring##add setup");
  hands.press("Measure and keep it");
  hands.settle();
  const auto now = logbook::Logbook(book).blocks();
  ASSERT_EQ(now.size(), blocks.size() + 1);
  EXPECT_EQ(now.back().setup, "clay ring");
  EXPECT_EQ(now.back().shots.size(), blocks[0].shots.size());
}

TEST_F(DeskHands, RatesAndCommentsAShotAndTakesItBack) {
  open_demo();
  const std::int64_t id = desk.book->shot(desk.book->shots[2]).id;
  const std::size_t before = kept(book, id).comments.size();
  desk.choose(id);
  hands.key(static_cast<Key>(index_of(Key::f1) + 2));
  hands.settle();
  hands.press("hum 7");
  hands.type("words", "rings in the grip");
  hands.press("Keep the words");
  hands.settle();
  const auto said = kept(book, id).comments;
  ASSERT_EQ(said.size(), before + 1);
  EXPECT_EQ(said.back().hum, 7.0);
  EXPECT_EQ(said.back().words, "rings in the grip");
  hands.key(Key::z, true);
  hands.settle();
  EXPECT_EQ(kept(book, id).comments.size(), before);
}

TEST_F(DeskHands, LeavesAShotOutWithAReasonAndUndoes) {
  open_demo();
  const std::int64_t id = desk.book->shot(desk.book->shots[1]).id;
  desk.choose(id);
  desk.place = Place::shot;
  hands.settle();
  hands.press("Leave this shot out");
  hands.press("plucked");
  hands.settle();
  EXPECT_EQ(kept(book, id).dropped, "plucked");
  hands.press("##undo");
  hands.settle();
  EXPECT_EQ(kept(book, id).dropped, "");
}

TEST_F(DeskHands, KeepsThatAShotIsNone) {
  open_demo();
  const std::int64_t id = desk.book->shot(desk.book->shots[4]).id;
  desk.choose(id);
  desk.place = Place::shot;
  hands.settle();
  hands.key(Key::d);
  hands.press("it is no shot");
  hands.settle();
  const auto corrections = logbook::Logbook(book).corrections();
  ASSERT_EQ(corrections.size(), 1U);
  EXPECT_EQ(corrections[0].kind, logbook::Correction::Kind::not_a_shot);
  EXPECT_EQ(corrections[0].shot, id);
  EXPECT_NE(kept(book, id).dropped, "");
}

TEST_F(DeskHands, ComparesAndWritesAReportSlowUnderSanitizer) {
  open_demo();
  hands.press("Compare");
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr) << desk.compare_trouble;
  EXPECT_TRUE(desk.comparison->with_sound);
  // The invented evening's story: the felt cuff takes hum away (src/intake/demo_evening.cpp).
  const auto& against = desk.comparison->report.source.comparison.against;
  const auto felt = std::ranges::find(against, "felt cuff", &compare::SetUpComparison::setup);
  ASSERT_NE(felt, against.end());
  EXPECT_EQ(felt->numbers.front().verdict, compare::Verdict::clear);
  EXPECT_LT(felt->numbers.front().difference->difference, -1.0);
  hands.press("ping##question");
  hands.settle();
  EXPECT_EQ(desk.preferences.main_number, "ping");
  hands.press("Page");
  hands.press("Write the page");
  hands.settle();
  EXPECT_GT(std::filesystem::file_size(folder.path("book-report.html")), 20000U);
}

TEST_F(DeskHands, MakesANewSetUp) {
  open_demo();
  hands.press("New set-up");
  hands.type("set-up name", "wool silencer");
  hands.type("set-up differs", "wool on the string");
  hands.press("Keep the set-up");
  hands.settle();
  const auto setups = logbook::Logbook(book).setups();
  ASSERT_EQ(setups.size(), 4U);
  EXPECT_EQ(setups.back().name, "wool silencer");
  EXPECT_EQ(setups.back().changed, "wool on the string");
  EXPECT_FALSE(setups.back().baseline);
}

// Half the difference takes four times the shots (a mean's error goes with the root of their number), as far as blocks let it.
TEST_F(DeskHands, PlansMoreShotsForASmallerDifference) {
  open_demo();
  hands.press("Plan");
  hands.settle();
  const auto shots = [this](const char* worth, const char* spread = "1") {
    hands.retype("worth", worth);
    hands.retype("spread", spread);
    for (const auto& [name, place] : hands.places()) {
      if (name.find(" shots with each set-up") != std::string::npos) return std::stoi(name);
    }
    return 0;
  };
  const int coarse = shots("1");
  const int fine = shots("0.5");
  EXPECT_GT(coarse, 2);
  EXPECT_GE(fine, 3 * coarse);
  EXPECT_LE(fine, 5 * coarse);
  EXPECT_NEAR(shots("1", "2"), fine, 2.0) << "twice the scatter is half the difference";
  EXPECT_EQ(shots("soon"), 0) << "no number, no plan";
}

TEST_F(DeskHands, ZoomsMovesAndShowsAllOfAPicture) {
  open_demo();
  desk.place = Place::shot;
  hands.settle();
  hands.frames(2);
  const int whole = hands.vertices();  // at 1280 x 820 all four have room
  const int made = hands.textures.made;
  const auto looks = [this] {
    hands.point_at({2.0F, 2.0F});  // away: no cross is drawn
    hands.frames(2);
    return hands.drawn();
  };
  const auto all = looks();
  hands.wheel("wave", 5.0F);
  EXPECT_NE(hands.vertices(), whole);
  EXPECT_NE(looks(), all);
  hands.drag("wave", 60.0F, 0.0F);
  hands.wheel("spectrogram", 3.0F, 0.3F);
  EXPECT_GT(hands.textures.made, made) << "a zoomed spectrogram is a new raster";
  hands.key(static_cast<Key>('1'));  // one picture alone, and back
  EXPECT_FALSE(hands.sees("decay"));
  hands.key(static_cast<Key>('1'));
  EXPECT_TRUE(hands.sees("decay"));
}

TEST_F(DeskHands, WishesAndHelpByMouseAndKeyboard) {
  open_demo();
  hands.press("m##units");
  EXPECT_TRUE(desk.preferences.archers_units);
  hands.press("##theme");
  EXPECT_EQ(desk.preferences.theme, plot::Theme::light);
  hands.key(Key::t, true);
  EXPECT_EQ(desk.preferences.theme, plot::Theme::dark);
  const int before = hands.vertices();
  hands.press("?##help");
  EXPECT_GT(hands.vertices(), before + 1000);
  hands.key(Key::escape);
  EXPECT_LT(hands.vertices(), before + 1000);
}

TEST_F(DeskHands, TroubleLooksLikeTroubleAndStays) {
  open_demo();
  desk.say("all is well");
  desk.say("it is not", true);
  hands.frames(2);
  EXPECT_TRUE(hands.sees("notice 0"));
  EXPECT_TRUE(hands.sees("trouble 1"));
  hands.frames(9 * 60);  // nine seconds of the hands' clock
  ASSERT_EQ(desk.notices.size(), 1U);
  EXPECT_TRUE(desk.notices.front().trouble);
  hands.press("##away 0");
  EXPECT_TRUE(desk.notices.empty());
}

TEST_F(DeskHands, WordsFirstHidesNumbersUntilSomethingIsSaid) {
  open_demo();
  desk.place = Place::range;
  hands.settle();
  EXPECT_FALSE(desk.preferences.words_first);
  hands.press("Words first: hide the numbers until I have said mine");
  EXPECT_TRUE(desk.preferences.words_first);
  logbook::KeptShot shot = desk.book->shot(desk.book->shots[0]);
  ASSERT_FALSE(shot.comments.empty());
  logbook::KeptBlock block = desk.book->blocks[0];
  EXPECT_TRUE(numbers_shown(block, shot, true));
  shot.comments.clear();
  EXPECT_FALSE(numbers_shown(block, shot, true));
  EXPECT_TRUE(numbers_shown(block, shot, false));
  block.blind = true;  // a blind session of the logbook's own
  EXPECT_FALSE(numbers_shown(block, shot, false));
}

TEST_F(DeskHands, ListensToAFileAsIfItWereAMicrophone) {
  open_demo();
  const std::size_t before = desk.book->shots.size();
  const auto blocks = intake::demo_blocks();
  const std::string wav = folder.path("live.wav");
  audio::write_wav(wav, intake::demo_samples(blocks, 1), intake::kDemoRate_hz, audio::SampleCoding::wav_24_bit);
  // As fast as it is taken: no test waits for the clock.
  desk.listen("clay ring", "heard live", [wav] { return audio::play_file_in(wav, {.speed = 0.0, .channel = std::nullopt}); });
  desk.place = Place::range;
  hands.frames(2);
  while (desk.hearing.ears) {
    hands.frames(1);
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  hands.settle();
  const auto now = logbook::Logbook(book).blocks();
  ASSERT_EQ(now.size(), blocks.size() + 1);
  EXPECT_EQ(now.back().setup, "clay ring");
  EXPECT_EQ(now.back().note, "heard live");
  EXPECT_EQ(desk.book->shots.size(), before + blocks[1].shots.size());
}

}  // namespace
}  // namespace ringfall::desk
