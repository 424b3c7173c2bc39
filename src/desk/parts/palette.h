// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include "plot/ink.h"

namespace ringfall::desk {

/// The window's colours, packed as ImGui draws them. They are kin to the inks of the pictures (plot/ink.h), which stand on
/// `sheet`. No meaning is carried by colour alone: every state has a word or a shape too.
struct Palette {
  ImU32 ground;      ///< behind everything
  ImU32 sheet;       ///< what pictures and words stand on; the pictures' paper
  ImU32 well;        ///< fields to write in
  ImU32 hem;         ///< thin lines and edges
  ImU32 text;
  ImU32 muted;
  ImU32 wax;         ///< what is chosen or wants pressing
  ImU32 on_wax;      ///< words on wax
  ImU32 hover;       ///< under the pointer
  ImU32 caution;
  ImU32 fine;
  plot::Theme theme;
};

/// Text and muted have a contrast of 4.5 to all they stand on at least, caution to sheet and well too; fine and wax 3. Tests: desk.Palette.*
Palette palette_of(plot::Theme theme);

/// The same colour, more or less see-through (0 .. 1).
ImU32 faded(ImU32 colour, float opacity);

ImU32 packed(plot::Colour colour);

}  // namespace ringfall::desk
