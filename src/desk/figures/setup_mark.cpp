// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/setup_mark.h"

#include "desk/figures/line_work.h"
#include "plot/cues.h"

namespace ringfall::desk {

ImU32 setup_colour(const Stage& stage, std::size_t index) {
  return packed(plot::colour_of(plot::trace_ink(static_cast<int>(index % 1000)), stage.palette.theme));
}

void draw_setup_mark(const Stage& stage, ImDrawList& list, std::size_t index, ImVec2 centre, float radius_px) {
  const plot::Ink ink = plot::trace_ink(static_cast<int>(index % 1000));
  std::vector<ImVec2> outline;
  const auto points = plot::marker_outline(plot::marker_of(ink), {static_cast<double>(centre.x), static_cast<double>(centre.y)},
                                           static_cast<double>(radius_px));
  for (const plot::Point& point : points) outline.push_back({static_cast<float>(point.x), static_cast<float>(point.y)});
  add_area(list, outline, setup_colour(stage, index));
}

}  // namespace ringfall::desk
