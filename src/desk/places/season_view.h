// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// The bow over the season: the main number block by block, whether it creeps, what was noted.
class SeasonView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void read(const BookSheet& book, const shot::Number& number, const std::string& setup, bool words_first);
  void creep(Desk& desk, const Stage& stage, const std::string& setup);
  void afar(const Desk& desk, const Stage& stage, const std::string& setup);

  std::size_t setup_ = 0;
  std::string of_;  ///< what the figure below was made from
  std::uint64_t revision_ = 0;
  plot::Figure figure_;
  FigurePane pane_;
};

}  // namespace ringfall::desk
