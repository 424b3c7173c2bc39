// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

#include "plot/canvas.h"
#include "plot/event_labels.h"
#include "plot/ticks.h"

namespace ringfall::plot {

/// What a panel needs round its frame, found in two steps: first the sides (they need a guess of the frame's
/// height), then head and foot (they need its width).
struct PanelPlan {
  const Panel* panel = nullptr;
  Range x_range;
  Range y_range;
  /// Does the range mean something? Without data or given ends an axis has no numbers.
  bool x_known = true;
  bool y_known = true;
  /// Numbers and title under the frame? Not in upper panels that share x.
  bool x_words = true;
  double left_pt = 0.0;
  double right_pt = 0.0;
  double head_pt = 0.0;
  double foot_pt = 0.0;
};

/// The frame of a plan at a place on the page.
Frame frame_of(const PanelPlan& plan, const Rect& place);

void plan_sides(PanelPlan& plan, double cell_width_pt, double height_pt, const Measure& measure);
void plan_head_and_foot(PanelPlan& plan, double cell_width_pt, const Measure& measure);

/// All marks of a panel; `cell` is the room that nothing may leave.
Canvas panel_marks(const PanelPlan& plan, const Rect& cell, const Rect& place, const Measure& measure);

}  // namespace ringfall::plot
