// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/places/add_view.h"
#include "desk/places/block_view.h"
#include "desk/model/desk.h"
#include "desk/places/session_view.h"
#include "desk/parts/stage.h"
#include "desk/places/welcome_view.h"

namespace ringfall::desk {

/// The logbook: the evening, its set-ups, every block with its shots; where recordings are added. Without a logbook: the welcome.
class BookView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void evening(Desk& desk, const Stage& stage, ImVec2 size);
  void setups(Desk& desk, const Stage& stage);
  void shots(Desk& desk, const Stage& stage, ImVec2 size);
  void row(Desk& desk, const Stage& stage, const ShotAt& at, float width);
  void block_row(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width);

  WelcomeView welcome_;
  AddView add_;
  SessionView session_;
  BlockView block_;
  std::string of_;  ///< the logbook that what follows is about
  bool new_session_ = false;
  bool new_setup_ = false;
  std::string setup_name_;
  std::string setup_changed_;
};

}  // namespace ringfall::desk
