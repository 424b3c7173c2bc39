// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <vector>

#include "desk/parts/fonts.h"
#include "desk/parts/palette.h"
#include "desk/parts/textures.h"
#include "plot/layout.h"
#include "plot/picture.h"

namespace ringfall::desk {

/// Pixels of a picture's point at scale 1.
inline constexpr float kPixelsPerPoint = 1.5F;

/// Widths of the window's own type, for layout: so words in pictures fit as they do on paper.
plot::Measure picture_measure(const Fonts& fonts, float pixels_per_pt);

/// The rasters of a picture as textures, in the order of their marks.
std::vector<ImTextureID> textures_of(const plot::Picture& picture, plot::Theme theme, Textures& textures);

/// Where and how a picture is painted.
struct Easel {
  ImDrawList* list = nullptr;
  ImVec2 origin{};           ///< of the picture's top left corner, in pixels
  float pixels_per_pt = kPixelsPerPoint;
  const Fonts* fonts = nullptr;
  plot::Theme theme = plot::Theme::dark;
};

/// The one painter of Pictures in the window: every mark, in order, no catch-all. Lines of many points are thinned to
/// the lowest and highest of each pixel column. Tests: desk.Painter.*
void paint(const plot::Picture& picture, const std::vector<ImTextureID>& textures, const Easel& easel);

}  // namespace ringfall::desk
