// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "plot/canvas.h"

namespace ringfall::plot {

/// Series that have a name and draw a sample of themselves, and spans whose label has no room inside.
struct LegendEntry {
  const Series* series = nullptr;
  std::string words;
};
std::vector<LegendEntry> legend_entries(const Panel& panel, const Frame& frame, const Measure& measure);

/// Width of a legend beside the panel, at most `most_pt`; 0 for no entries.
double legend_width(const std::vector<LegendEntry>& entries, double most_pt, const Measure& measure);

/// Inside the frame in the corner that hides least of what is drawn, on a pale ground. Entries without room
/// are summed up as "+ 3 more".
void add_legend_inside(Canvas& canvas, const std::vector<LegendEntry>& entries);

/// In a column of its own from `left_pt` on.
void add_legend_beside(Canvas& canvas, const std::vector<LegendEntry>& entries, double left_pt, double width_pt);

}  // namespace ringfall::plot
