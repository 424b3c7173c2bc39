// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <array>
#include <string>

namespace ringfall::desk {

/// The window's type, baked for one scale.
struct Fonts {
  ImFont* small = nullptr;   ///< 14 px at scale 1
  ImFont* text = nullptr;    ///< 17
  ImFont* strong = nullptr;  ///< 17, heavy
  ImFont* title = nullptr;   ///< 25, heavy
  ImFont* figure = nullptr;  ///< 44, heavy: tiles
  ImFont* huge = nullptr;    ///< 118, digits and a few signs: read from three metres
  std::array<ImFont*, 3> picture{};  ///< 12, 15, 20 px for pictures
};

/// Where fontconfig finds the type, the file of a family that is installed: Lato, else DejaVu Sans, else nothing.
struct FontFiles {
  std::string regular;
  std::string heavy;
  std::string signs;  ///< DejaVu Sans, for signs the first lacks
};
FontFiles find_fonts();

/// Fills an empty atlas. `scale` 0.5 .. 4. Without any file ImGui's own font serves for all. Call before the first frame, or
/// between frames after clearing the atlas.
Fonts load_fonts(ImFontAtlas& atlas, const FontFiles& files, float scale);

}  // namespace ringfall::desk
