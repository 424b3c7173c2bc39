// SPDX-License-Identifier: GPL-3.0-or-later
// A blind session: nothing on the window depends on the numbers of a shot without a comment.
#include <gtest/gtest.h>

#include <map>

#include "desk/desk_hands.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

constexpr std::int64_t kHidden = 7;  // a shot that counts

class BlindHands : public DeskHands {
 protected:
  /// The invented evening, blind, without what was said of shot 7.
  void put_blind() {
    put_demo(book);
    logbook::Logbook blind(book);
    auto session = blind.conditions();
    session.blind = true;
    blind.change_session(session);
    for (const auto& comment : kept(book, kHidden).comments) blind.remove_comment(comment.id);
  }
  /// What is drawn at each place, the hidden shot chosen.
  std::map<Place, std::vector<float>> looks() {
    desk.close();
    desk.open(book);
    hands.settle();
    desk.choose(kHidden);
    std::map<Place, std::vector<float>> seen;
    for (int k = 0; k < kPlaces; ++k) {
      desk.place = static_cast<Place>(k);
      hands.settle();
      seen[desk.place] = hands.drawn();
    }
    return seen;
  }
};

TEST_F(BlindHands, NoPlaceShowsAnythingOfAHiddenNumber) {
  put_blind();
  for (const char* main : {"hum", "exposure_db"}) {
    desk.preferences.main_number = main;
    const auto before = looks();
    ASSERT_EQ(desk.book->hidden, std::vector<std::int64_t>{kHidden});
    // Other numbers, tones and findings; as many cautions, since that something spoils it may be known.
    shot::Shot other = kept(book, kHidden).shot;
    const shot::Shot was = other;
    other.hum = 9.7;
    other.ping = 9.1;
    other.levels.exposure_db = 30.0;
    other.levels.peak_db = 40.0;
    other.levels.loudness_sone = 400.0;
    other.ring_down.late_s = 9.0;
    other.tones.clear();
    other.impact_lag_s.reset();
    const std::string analyser = kept(book, kHidden).analyser;
    logbook::Logbook(book).set_numbers(kHidden, other, analyser);
    const auto after = looks();
    for (int k = 0; k < kPlaces; ++k) {
      const auto place = static_cast<Place>(k);
      EXPECT_EQ(before.at(place), after.at(place)) << main << " is given away at " << place_name(place);
    }
    logbook::Logbook(book).set_numbers(kHidden, was, analyser);
  }
}

TEST_F(BlindHands, TheSameChangeShowsOnceAWordIsIn) {
  put_blind();
  logbook::Logbook(book).add_comment(kHidden, {"", 5.0, {}, {}, {}, ""});
  const auto before = looks();
  EXPECT_TRUE(desk.book->hidden.empty());
  shot::Shot other = kept(book, kHidden).shot;
  other.hum = 9.7;
  logbook::Logbook(book).set_numbers(kHidden, other, kept(book, kHidden).analyser);
  const auto after = looks();
  for (const Place place : {Place::book, Place::shot, Place::compare, Place::season, Place::page}) {
    EXPECT_NE(before.at(place), after.at(place)) << place_name(place);
  }
}

TEST_F(BlindHands, LeadsFromTheComparisonToTheShotThatWaits) {
  put_blind();
  desk.open(book);
  hands.settle();
  for (const char* place : {"Compare", "Ears", "Season", "Page"}) {
    hands.press(place);
    hands.settle();
    EXPECT_TRUE(hands.sees("To the first of them")) << place;
  }
  EXPECT_FALSE(hands.sees("Write everything"));
  EXPECT_EQ(desk.comparison, nullptr);
  hands.press("To the first of them");
  hands.settle();
  EXPECT_EQ(desk.place, Place::shot);
  EXPECT_EQ(desk.chosen, kHidden);
  EXPECT_FALSE(hands.sees("wave"));
  hands.press("loud 4");
  hands.press("Keep the words");
  hands.settle();
  EXPECT_TRUE(hands.sees("wave"));
  EXPECT_FALSE(kept(book, kHidden).comments.at(0).blind) << "its numbers could be seen before the session was made a blind one";
  hands.press("Compare");
  hands.settle();
  EXPECT_TRUE(hands.sees("comparison picture"));
}

TEST_F(BlindHands, AShotLeftOutNeedsNoWords) {
  put_blind();
  logbook::Logbook(book).drop_shot(kHidden, "plucked");
  desk.open(book);
  hands.settle();
  EXPECT_TRUE(desk.book->hidden.empty());
}

// Without a blind session the wish of this window hides alike; a comment on the block speaks for all its shots.
TEST(WordsFirst, HidesUntilTheShotOrItsBlockHasWords) {
  logbook::KeptShot shot;
  logbook::KeptBlock block;
  EXPECT_TRUE(numbers_shown(block, shot, false));
  EXPECT_FALSE(numbers_shown(block, shot, true));
  block.comments.push_back({});
  EXPECT_TRUE(numbers_shown(block, shot, true));
  block.comments.clear();
  block.blind = true;
  EXPECT_FALSE(numbers_shown(block, shot, false));
  shot.comments.push_back({});
  EXPECT_TRUE(numbers_shown(block, shot, false));
}

}  // namespace
}  // namespace ringfall::desk
