// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/palette.h"

#include <algorithm>

namespace ringfall::desk {

ImU32 packed(plot::Colour colour) { return IM_COL32(colour.red, colour.green, colour.blue, 255); }

ImU32 faded(ImU32 colour, float opacity) {
  const auto alpha = static_cast<float>((colour >> IM_COL32_A_SHIFT) & 0xFFU);
  const auto scaled = static_cast<ImU32>(std::clamp(alpha * opacity, 0.0F, 255.0F));
  return (colour & ~IM_COL32_A_MASK) | (scaled << IM_COL32_A_SHIFT);
}

Palette palette_of(plot::Theme theme) {
  const auto ink = [theme](plot::Ink role) { return packed(plot::colour_of(role, theme)); };
  Palette palette{};
  palette.theme = theme;
  palette.sheet = ink(plot::Ink::paper);
  palette.text = ink(plot::Ink::text);
  palette.muted = ink(plot::Ink::muted);
  palette.caution = ink(plot::Ink::warning);
  if (theme == plot::Theme::dark) {
    palette.ground = IM_COL32(11, 15, 17, 255);
    palette.well = IM_COL32(33, 40, 44, 255);
    palette.hem = IM_COL32(54, 64, 70, 255);
    palette.wax = IM_COL32(240, 190, 92, 255);
    palette.on_wax = IM_COL32(30, 22, 6, 255);
    palette.hover = IM_COL32(40, 49, 54, 255);
    palette.fine = IM_COL32(110, 196, 190, 255);
  } else {
    palette.ground = IM_COL32(233, 229, 220, 255);
    palette.well = IM_COL32(244, 242, 237, 255);
    palette.hem = IM_COL32(203, 197, 184, 255);
    palette.wax = IM_COL32(134, 72, 6, 255);
    palette.on_wax = IM_COL32(255, 250, 240, 255);
    palette.hover = IM_COL32(240, 232, 214, 255);
    palette.fine = IM_COL32(0, 106, 103, 255);
  }
  return palette;
}

}  // namespace ringfall::desk
