// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/write.h"

#include <fstream>
#include <system_error>

#include "base/failure.h"

namespace ringfall::plot {

void write_whole_file(const std::filesystem::path& path, std::string_view bytes) {
  std::filesystem::path temporary = path;
  temporary += ".part";
  std::error_code error;
  {
    std::ofstream out(temporary, std::ios::binary | std::ios::trunc);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.close();
    if (!out) {
      std::filesystem::remove(temporary, error);
      throw FileFailure(path.string() + ": can't be written; is there such a folder, with room and permission?");
    }
  }
  std::filesystem::rename(temporary, path, error);
  if (error) {
    const std::string reason = error.message();
    std::filesystem::remove(temporary, error);
    throw FileFailure(path.string() + ": can't be replaced (" + reason + "); choose another name");
  }
}

void write_svg(const std::filesystem::path& path, const Picture& picture, Theme theme) {
  write_whole_file(path, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg_text(picture, theme, "p"));
}

void write_pdf(const std::filesystem::path& path, std::span<const Picture> pictures, std::string_view title,
               Theme theme) {
  write_whole_file(path, pdf_bytes(pictures, theme, title));
}

void write_png(const std::filesystem::path& path, const Picture& picture, Theme theme, double pixels_per_pt) {
  write_whole_file(path, png_bytes(picture, theme, pixels_per_pt));
}

}  // namespace ringfall::plot
