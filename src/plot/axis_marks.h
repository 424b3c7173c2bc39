// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "plot/canvas.h"
#include "plot/ticks.h"

namespace ringfall::plot {

/// "Level (dB re full scale)"; only what there is of both.
std::string axis_title(const std::string& quantity, const std::string& unit);

/// Ticks with labels that keep clear of each other, along x or y. On a category axis one a category.
std::vector<Tick> axis_ticks(const Axis& axis, const AxisMap& map, Along along, const Measure& measure);

/// The names of the categories of an x axis as lines, broken to a category's room.
std::vector<std::vector<std::string>> category_lines(const Axis& axis, double width_pt, const Measure& measure);

/// Room for the labels left of the frame, at most two fifths of `cell_width_pt`.
double label_room_left(const Axis& axis, const AxisMap& map, double cell_width_pt, const Measure& measure);

/// Grid lines; the lines at foot and left; labels. Labels that would leave `cell` are left out.
void add_x_grid_marks(Canvas& canvas);
void add_y_grid_marks(Canvas& canvas);
void add_frame_marks(Canvas& canvas);
void add_x_label_marks(Canvas& canvas, const Rect& cell);
void add_y_label_marks(Canvas& canvas, const Rect& cell);

/// Colour bar of a map at the right of the frame: its room, its marks.
double colour_bar_room(const LevelMap& map, double height_pt, const Measure& measure);
void add_colour_bar_marks(Canvas& canvas, const LevelMap& map);

}  // namespace ringfall::plot
