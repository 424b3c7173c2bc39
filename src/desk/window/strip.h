// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/model/desk.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// The line at the foot: every shot of the logbook as a stroke, as high as its main number, in the ink of its set-up, block by
/// block. Press one to choose it.
void draw_strip(Desk& desk, const Stage& stage, ImVec2 size);

}  // namespace ringfall::desk
