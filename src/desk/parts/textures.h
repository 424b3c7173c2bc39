// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <cstddef>
#include <cstdint>
#include <vector>

namespace ringfall::desk {

/// Where rasters live while they are shown: on the graphics card in the window, nowhere in tests.
class Textures {
 public:
  virtual ~Textures() = default;
  /// rgba: 4 bytes a pixel, rows from the top.
  virtual ImTextureID make(std::size_t columns, std::size_t rows, const std::vector<std::uint8_t>& rgba) = 0;
  virtual void drop(ImTextureID texture) = 0;
};

}  // namespace ringfall::desk
