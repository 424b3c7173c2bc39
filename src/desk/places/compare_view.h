// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Set-ups against each other: the verdict in words, every shot a dot, differences with intervals, decays and spectra laid over each
/// other, what was said against what was measured.
class CompareView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void question(Desk& desk, const Stage& stage);
  void answer(Desk& desk, const Stage& stage, ImVec2 size);
  void figures(Desk& desk, const Stage& stage, ImVec2 size);

  std::deque<FigurePane> panes_;
  std::size_t shown_ = 0;
};

}  // namespace ringfall::desk
