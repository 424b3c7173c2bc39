// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/blind_test.h"
#include "desk/desk.h"
#include "desk/stage.h"

namespace ringfall::desk {

/// Listening to set-ups at one gain for all; a blind test whether they can be told apart.
class EarsView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void setup_row(Desk& desk, const Stage& stage, const std::string& setup, std::size_t index);
  void test(Desk& desk, const Stage& stage, float width);
  void sound_of(Desk& desk, const std::string& setup, std::size_t which);

  std::size_t first_ = 0;
  std::size_t second_ = 1;
  BlindTest blind_;
};

}  // namespace ringfall::desk
