// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <functional>
#include <memory>
#include <string>

#include "desk/hands.h"
#include "support/test_folder.h"

namespace ringfall::desk {

/// A shot as the logbook's file has it.
inline logbook::KeptShot kept(const std::string& path, std::int64_t id) {
  for (const auto& block : logbook::Logbook(path).blocks()) {
    for (const auto& shot : block.shots) {
      if (shot.id == id) return shot;
    }
  }
  ADD_FAILURE() << "no shot " << id;
  return {};
}

/// Everything is done with the hands and asserted on the logbook's file, not on the window's own state.
class DeskHands : public testing::Test {
 protected:
  explicit DeskHands(std::shared_ptr<SoundPort> sound = nullptr, std::function<void()> wake = [] {})
      : desk({}, std::move(wake), std::move(sound)), hands(desk) {}
  void open_demo() {
    put_demo(book);
    desk.open(book);
    hands.settle();
    ASSERT_NE(desk.book, nullptr);
  }
  TestFolder folder;
  std::string book = folder.path("book.ringfall");
  Desk desk;
  Hands hands;
};

}  // namespace ringfall::desk
