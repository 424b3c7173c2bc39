// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/gl_textures.h"

#include <GLFW/glfw3.h>
#include <stb/stb_image_write.h>

#include "base/failure.h"

namespace ringfall::desk {
namespace {

constexpr GLint kClampToEdge = 0x812F;  // GL_CLAMP_TO_EDGE, OpenGL 1.2; the system's header may stop at 1.1

}  // namespace

ImTextureID GlTextures::make(std::size_t columns, std::size_t rows, const std::vector<std::uint8_t>& rgba) {
  GLuint name = 0;
  glGenTextures(1, &name);
  glBindTexture(GL_TEXTURE_2D, name);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, kClampToEdge);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, kClampToEdge);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, static_cast<GLsizei>(columns), static_cast<GLsizei>(rows), 0, GL_RGBA, GL_UNSIGNED_BYTE,
               rgba.data());
  return reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(name));
}

void GlTextures::drop(ImTextureID texture) {
  const auto name = static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(texture));
  glDeleteTextures(1, &name);
}

void write_screen(const char* path, int width, int height) {
  std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadPixels(0, 0, width, height, GL_RGB, GL_UNSIGNED_BYTE, pixels.data());
  stbi_flip_vertically_on_write(1);
  if (stbi_write_png(path, width, height, 3, pixels.data(), 3 * width) == 0) {
    throw FileFailure(std::string(path) + ": the picture can't be written; is the folder there?");
  }
}

}  // namespace ringfall::desk
