// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

namespace ringfall::desk {

/// Signs of the window, drawn with a few strokes each.
enum class Icon { none, play, stop, loop, cross, undo, plus, folder, tick, caution, halo, ear, page, grow, shrink, pen };

/// Draws one round `centre`, about `size` wide and high.
void draw_icon(ImDrawList& list, Icon icon, ImVec2 centre, float size, ImU32 colour);

/// Ringfall's mark: a loud edge and its ring, dying away.
void draw_mark(ImDrawList& list, ImVec2 left_middle, float width, float height, ImU32 colour, float thickness);

}  // namespace ringfall::desk
