// SPDX-License-Identifier: GPL-3.0-or-later
// Every place at the sizes and scales that screens have: it is drawn, and nothing that can be pressed is cut off or off the screen.
#include <gtest/gtest.h>

#include "desk/desk_hands.h"

namespace ringfall::desk {
namespace {

struct Look {
  float width;
  float height;
  float scale;  ///< pixels of one design unit, as on a screen of high resolution or with large type
};

class Looks : public testing::TestWithParam<Look> {};

TEST_P(Looks, EveryPlaceHasRoomForSixtyFramesSlowUnderSanitizer) {
  const Look look = GetParam();
  const TestFolder folder;
  put_demo(folder.path("book.ringfall"));
  Desk desk({}, [] {});
  Hands hands(desk, look.width, look.height, look.scale);
  const auto expect_all_in_sight = [&](const std::string& what) {
    EXPECT_TRUE(hands.cut.empty()) << what << ": no room for '" << hands.cut.front() << "'";
    hands.cut.clear();
    EXPECT_TRUE(hands.wordless.empty()) << what << ": nothing says what '" << hands.wordless.front() << "' does";
    hands.wordless.clear();
    for (const auto& [name, place] : hands.places()) {
      // Lists scroll up and down; sideways nothing may leave the window.
      EXPECT_GE(place.low.x, -0.5F) << what << ": " << name;
      EXPECT_LE(place.high.x, look.scale * look.width + 0.5F) << what << ": " << name;
    }
  };
  hands.frames(60);
  expect_all_in_sight("welcome");
  desk.open(folder.path("book.ringfall"));
  hands.settle();
  for (int k = 0; k < kPlaces; ++k) {
    desk.place = static_cast<Place>(k);
    hands.settle();
    hands.frames(60);
    EXPECT_GT(hands.vertices(), 1500) << place_name(desk.place) << " is nearly empty";
    expect_all_in_sight(place_name(desk.place));
  }
  desk.place = Place::book;
  hands.frames(2);
  hands.press("block 1");
  hands.settle();
  hands.frames(60);
  expect_all_in_sight("a block");
  EXPECT_TRUE(hands.sees("Keep the missed shot"));
  hands.press("Back to the shots");
  hands.press("New session");
  hands.frames(3);
  EXPECT_TRUE(hands.sees("Start the session"));
  expect_all_in_sight("a session");
  hands.press("Add a recording");
  hands.frames(3);
  EXPECT_TRUE(hands.sees("Measure and keep it"));
  expect_all_in_sight("a recording to be added");
}

INSTANTIATE_TEST_SUITE_P(Screens, Looks,
                         testing::Values(Look{1440.0F, 900.0F, 1.0F}, Look{1024.0F, 700.0F, 1.0F}, Look{1440.0F, 900.0F, 1.5F},
                                         Look{1440.0F, 900.0F, 2.0F}, Look{1024.0F, 700.0F, 1.5F}));

}  // namespace
}  // namespace ringfall::desk
