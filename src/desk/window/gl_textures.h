// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "desk/parts/textures.h"

namespace ringfall::desk {

/// Rasters on the graphics card. Needs a current OpenGL context for as long as it lives.
class GlTextures final : public Textures {
 public:
  ImTextureID make(std::size_t columns, std::size_t rows, const std::vector<std::uint8_t>& rgba) override;
  void drop(ImTextureID texture) override;
};

/// The window's pixels as a PNG file. FileFailure: it can't be written.
void write_screen(const char* path, int width, int height);

}  // namespace ringfall::desk
