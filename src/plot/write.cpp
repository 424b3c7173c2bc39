// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/write.h"

#include "base/new_file.h"

namespace ringfall::plot {

void write_whole_file(const std::filesystem::path& path, std::string_view bytes) { ringfall::write_whole_file(path.string(), bytes); }

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
