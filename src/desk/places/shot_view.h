// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/places/say_view.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// One shot: its numbers in big figures, its four pictures to look into, what spoils it, its tones, words on it.
class ShotView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void keys(Desk& desk);
  /// The shot, or its tail over and over; again: silence.
  void listen(Desk& desk, bool tail);
  void head(Desk& desk, const Stage& stage, const ShotAt& at, float width);
  void pictures(Desk& desk, const Stage& stage, ImVec2 size);
  void facts(Desk& desk, const Stage& stage, const ShotAt& at, float width);

  std::array<FigurePane, kShotPictures> panes_;
  std::optional<std::size_t> alone_;  ///< the one picture that has all the room
  std::size_t small_ = 0;             ///< the one shown when there is no room for four
  SayView say_;
};

}  // namespace ringfall::desk
