// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/parts/stage.h"
#include "plot/picture.h"

namespace ringfall::desk {

/// Where the microphone stands, seen from above: a metre from the grip, behind the shooting line, beside the archer; nobody forward of
/// the line. To scale but for the target. At least 250 x 110 points. Tests: desk.PlacingSketch.*
plot::Picture placing_sketch(double width_pt, double height_pt);

/// Paints it at the cursor.
void draw_placing_sketch(const Stage& stage, ImVec2 size);

}  // namespace ringfall::desk
