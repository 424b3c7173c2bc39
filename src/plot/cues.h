// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "plot/picture.h"

namespace ringfall::plot {

/// Lengths on and off of a dash for a line of this width, in points; empty for a solid line.
std::vector<double> dash_lengths(Dash dash, double width_pt);

/// "solid", "dashed", "dotted", "dash_dot".
const char* dash_name(Dash dash);

/// Outline of a marker of about this radius round a point; all shapes cover about the same area.
std::vector<Point> marker_outline(Marker marker, Point centre, double radius_pt);

}  // namespace ringfall::plot
