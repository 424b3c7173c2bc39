// SPDX-License-Identifier: GPL-3.0-or-later
// The window worked without a mouse.
#include <gtest/gtest.h>

#include "desk/desk_hands.h"

namespace ringfall::desk {
namespace {

class Keyboard : public DeskHands {
 protected:
  /// Tab until this has the keyboard.
  void tab_to(const std::string& name, bool back = false) {
    for (int k = 0; k < 200 && hands.focused != name; ++k) hands.key(Key::tab, false, back);
    ASSERT_EQ(hands.focused, name);
  }
};

TEST_F(Keyboard, StartsALogbookWithoutAMouse) {
  tab_to("Start a logbook");
  hands.key(Key::space);
  hands.frames(2);
  tab_to("bow");
  ImGui::GetIO().AddInputCharactersUTF8("made-up bow");  // a field is written in as soon as Tab has come to it
  hands.frames(2);
  tab_to("logbook file", true);
  hands.key(Key::a, true);
  ImGui::GetIO().AddInputCharactersUTF8(book.c_str());
  hands.frames(2);
  tab_to("Start it");
  hands.key(Key::space);
  hands.settle();
  ASSERT_NE(desk.book, nullptr);
  EXPECT_EQ(logbook::Logbook(book).conditions().bow, "made-up bow");
}

TEST_F(Keyboard, RatesAShotAndGoesFromPlaceToPlace) {
  open_demo();
  const std::int64_t id = desk.book->shot(desk.book->shots[0]).id;
  const std::size_t before = kept(book, id).comments.size();
  tab_to("Shot");
  hands.key(Key::space);
  hands.settle();
  ASSERT_EQ(desk.place, Place::shot);
  tab_to("ping 4");
  hands.key(Key::space);
  tab_to("Keep the words");
  hands.key(Key::space);
  hands.settle();
  ASSERT_EQ(kept(book, id).comments.size(), before + 1);
  EXPECT_EQ(kept(book, id).comments.back().ping, 4.0);
}

TEST_F(Keyboard, ArrowsGoInAndOutOfTheSheets) {
  open_demo();
  tab_to("New set-up");
  for (int k = 0; k < 20 && hands.focused != "Add a recording"; ++k) hands.key(Key::up);
  EXPECT_EQ(hands.focused, "Add a recording");
  for (int k = 0; k < 20 && !hands.focused.starts_with("shot ") && !hands.focused.starts_with("block "); ++k) hands.key(Key::right);
  EXPECT_TRUE(hands.focused.starts_with("shot ") || hands.focused.starts_with("block ")) << hands.focused;
}

TEST_F(Keyboard, TipsAreForTheKeyboardToo) {
  open_demo();
  tab_to("##theme");
  EXPECT_EQ(hands.told, "light or dark (Ctrl+T)");
  tab_to("Plan");
  EXPECT_EQ(hands.told, "") << "its word says enough";
}

}  // namespace
}  // namespace ringfall::desk
