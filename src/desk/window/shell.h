// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/places/book_view.h"
#include "desk/places/compare_view.h"
#include "desk/model/desk.h"
#include "desk/places/ears_view.h"
#include "desk/places/page_view.h"
#include "desk/places/plan_view.h"
#include "desk/places/range_view.h"
#include "desk/places/season_view.h"
#include "desk/places/shot_view.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// The whole window: the places at the top, the one place in the middle, the line of shots and what is going on at the foot.
class Shell {
 public:
  /// Between ImGui::NewFrame and ImGui::Render.
  void draw(Desk& desk, const Stage& stage);

 private:
  void keys(Desk& desk);
  void head(Desk& desk, const Stage& stage, float width);
  void body(Desk& desk, const Stage& stage, ImVec2 size);
  void foot(Desk& desk, const Stage& stage, float width);
  void notices(Desk& desk, const Stage& stage);
  void wishes(Desk& desk, const Stage& stage, float right);

  bool help_ = false;

  BookView book_;
  RangeView range_;
  ShotView shot_;
  CompareView compare_;
  EarsView ears_;
  SeasonView season_;
  PlanView plan_;
  PageView page_;
};

}  // namespace ringfall::desk
