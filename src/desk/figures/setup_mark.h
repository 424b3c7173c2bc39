// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

#include "desk/parts/stage.h"

namespace ringfall::desk {

/// A set-up's marker and colour, the same as in the pictures; `index` is its place in the logbook.
void draw_setup_mark(const Stage& stage, ImDrawList& list, std::size_t index, ImVec2 centre, float radius_px);
ImU32 setup_colour(const Stage& stage, std::size_t index);

}  // namespace ringfall::desk
