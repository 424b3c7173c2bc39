// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/sheets/blind_test.h"
#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Listening to set-ups at one gain for all; a blind test whether they can be told apart.
class EarsView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void setup_row(Desk& desk, const Stage& stage, const std::string& setup, std::size_t index, float name_wide);
  void test(Desk& desk, const Stage& stage, ImVec2 size);
  /// What the two set-ups chosen look like, in the room that is left.
  void pictures(const CompareSheet& sheet, const Stage& stage, ImVec2 size);
  void log(const Stage& stage, const std::vector<std::string>& setups, ImVec2 size);
  void sound_of(Desk& desk, const std::string& setup, std::size_t which);

  std::size_t first_ = 0;
  std::size_t second_ = 1;
  BlindTest blind_;
  struct Looked {  ///< what the picture is of
    std::uint64_t sheet = 0;
    std::size_t first = 0;
    std::size_t second = 0;
    std::size_t picture = 0;
    bool operator==(const Looked&) const = default;
  };
  Looked looked_;
  std::size_t picture_ = 0;
  std::optional<plot::Figure> figure_;
  std::uint64_t revision_ = 0;
  FigurePane pane_;
  FigurePane score_pane_;
  plot::Figure score_;
  std::uint64_t score_revision_ = 0;
  std::size_t score_rounds_ = 0;
};

}  // namespace ringfall::desk
