// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/places/say_view.h"
#include "desk/parts/stage.h"
#include "intake/level_meter.h"

namespace ringfall::desk {

/// At the range: which set-up is shot, a meter and figures to be read from three metres, words on the shot just made.
class RangeView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void before(Desk& desk, const Stage& stage, ImVec2 size);
  void before_sheet(Desk& desk, const Stage& stage, ImVec2 size);
  void chain(Desk& desk, const Stage& stage, ImVec2 size);
  void while_listening(Desk& desk, const Stage& stage, ImVec2 size);
  void meter(Desk& desk, const Stage& stage, float width);
  void figures(Desk& desk, const Stage& stage, ImVec2 size);
  /// The newest shot's figures, as large as the width lets them.
  void newest(const Stage& stage, const shot::Shot& shot, float width);
  /// The shots before it, still to be read from three metres; as many as leave room for the pictures.
  void earlier(const Desk& desk, const Stage& stage, ImVec2 size);
  /// The block's dots beside the baseline's; when `of_shot`, the chosen shot's wave and tail too.
  void pictures(const Desk& desk, const Stage& stage, ImVec2 size, bool of_shot);
  void so_far(Desk& desk, const Stage& stage, ImVec2 size);

  std::size_t setup_ = 0;
  std::size_t source_ = 0;  ///< place in the list of microphones; one past its end: a recording
  std::string file_;
  std::string note_;
  bool looked_ = false;
  SayView say_;
  FigurePane dots_pane_;
  FigurePane wave_pane_;
  FigurePane tail_pane_;
};

/// What a meter's reading means for the gain and the room, in a few words and by the chain check's limits. `shot_peak_db`: highest
/// |sample| of the newest shot, re full scale.
struct ChainWords {
  std::string words;
  bool trouble = false;
};
ChainWords chain_words(const intake::MeterReading& reading, std::optional<double> shot_peak_db);

}  // namespace ringfall::desk
