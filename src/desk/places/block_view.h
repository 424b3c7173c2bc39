// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "desk/model/desk.h"
#include "desk/figures/figure_pane.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// One block: where its sound comes from, its recording at a glance, shots the finder missed, leaving it out.
class BlockView {
 public:
  /// True when the person is done with it.
  bool draw(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, ImVec2 size);
  /// Its recording is read anew the next time.
  void forget() { of_.clear(); }

 private:
  void take_up(Desk& desk, const logbook::KeptBlock& block);
  void set_up(Desk& desk, const Stage& stage, const logbook::KeptBlock& block);
  void picture(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, ImVec2 size);
  void missed(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width);
  void leave_out(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width);

  std::string of_;                  ///< logbook and block that the fields below are about
  std::string file_;
  std::string at_;                  ///< seconds or minutes:seconds, as typed or pointed at
  std::string reason_;
  FigurePane pane_;
  plot::Figure figure_;
  std::uint64_t drawn_ = 0;         ///< the overview in figure_
  int revision_ = -1;               ///< of the book in figure_
};

/// "1:23.456", to a thousandth of a second.
std::string clock_words(double time_s);

/// "83.4" or "1:23.4" in seconds; nullopt: neither.
std::optional<double> seconds_of(const std::string& text);

}  // namespace ringfall::desk
