// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/places/folder_pane.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Puts a recording into the open logbook: which file, which set-up, what to note.
class AddView {
 public:
  /// True when it is done with (added or called off).
  bool draw(Desk& desk, const Stage& stage, ImVec2 size);
  /// A file chosen elsewhere (dropped on the window).
  void offer(const std::string& file) { file_ = file; }

 private:
  FolderPane folder_;
  std::string file_;
  std::size_t setup_ = 0;  ///< place in the logbook's list; one past its end: a new one
  std::string new_setup_;
  std::string changed_;
  std::string note_;
  void overview(Desk& desk, const Stage& stage, ImVec2 size);

  std::string seen_;       ///< the file whose overview was asked for
  FigurePane pane_;
  plot::Figure figure_;
  std::uint64_t drawn_ = 0;
};

}  // namespace ringfall::desk
