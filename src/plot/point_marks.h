// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plot/canvas.h"

namespace ringfall::plot {

/// Dots with their error bars, spread sideways on a category axis: each at its place, or, where it would hide
/// another of the same place, as near beside as there is room, left and right by turns. Tests: PointMarksTest.
void add_dot_marks(Canvas& canvas, const Dots& dots);

void add_interval_marks(Canvas& canvas, const Intervals& intervals);

/// A marker: filled, or (hollow) an outline round paper.
void add_marker(std::vector<Mark>& marks, Point at, Ink ink, double radius_pt, bool hollow);

}  // namespace ringfall::plot
