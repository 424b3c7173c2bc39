// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <vector>

namespace ringfall::desk {

/// Lines and areas as the graphics card likes them.

/// Keeps of successive points in one pixel column the first, the lowest, the highest and the last. Tests: desk.LineWork.*
void thin_to_columns(std::vector<ImVec2>& points);

/// A line cut into its dashes; `lengths_px` alternate on and off.
std::vector<std::vector<ImVec2>> dashed(const std::vector<ImVec2>& points, const std::vector<double>& lengths_px);

/// Nothing for under two points. Long lines go in pieces that stay inside 16-bit indices.
void add_line(ImDrawList& list, const std::vector<ImVec2>& points, ImU32 colour, float width_px);

/// Any outline that does not cross itself, hollow corners and all.
void add_area(ImDrawList& list, const std::vector<ImVec2>& outline, ImU32 colour);

}  // namespace ringfall::desk
