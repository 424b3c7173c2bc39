// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/cairo_paint.h"

#include <cairo-pdf.h>
#include <cairo.h>

#include <cmath>
#include <memory>

#include "base/check.h"
#include "plot/colour_map.h"
#include "plot/cues.h"
#include "plot/text_width.h"
#include "plot/write.h"

namespace ringfall::plot {
namespace {

struct Release {
  void operator()(cairo_t* context) const { cairo_destroy(context); }
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
  void operator()(cairo_pattern_t* pattern) const { cairo_pattern_destroy(pattern); }
};
using Context = std::unique_ptr<cairo_t, Release>;
using Surface = std::unique_ptr<cairo_surface_t, Release>;

cairo_status_t append(void* target, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(target)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void check_status(cairo_status_t status) {
  check(status == CAIRO_STATUS_SUCCESS, std::string("Cairo: ") + cairo_status_to_string(status));
}

void set_ink(cairo_t* cairo, Colour c, double opacity = 1.0) {
  cairo_set_source_rgba(cairo, c.red / 255.0, c.green / 255.0, c.blue / 255.0, opacity);
}

Surface image_surface(const Image& image, Theme theme) {
  check(image.steps.size() == image.columns * image.rows && !image.steps.empty(), "an image has all its pixels");
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(image.columns),
                                             static_cast<int>(image.rows)));
  check_status(cairo_surface_status(surface.get()));
  cairo_surface_flush(surface.get());
  unsigned char* row = cairo_image_surface_get_data(surface.get());
  for (std::size_t r = 0; r < image.rows; ++r) {
    auto* pixel = reinterpret_cast<std::uint32_t*>(row);
    for (std::size_t c = 0; c < image.columns; ++c) {
      const Colour colour = level_colour(image.steps[r * image.columns + c], theme);
      pixel[c] = static_cast<std::uint32_t>(colour.red) << 16 | static_cast<std::uint32_t>(colour.green) << 8 | colour.blue;
    }
    row += cairo_image_surface_get_stride(surface.get());
  }
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

void trace_path(cairo_t* cairo, const std::vector<Point>& points) {
  cairo_new_path(cairo);
  for (const Point& point : points) cairo_line_to(cairo, point.x, point.y);
}

void paint_image(cairo_t* cairo, const Image& image, Theme theme) {
  const Surface surface = image_surface(image, theme);
  cairo_save(cairo);
  cairo_translate(cairo, image.place.left, image.place.top);
  cairo_scale(cairo, image.place.width() / static_cast<double>(image.columns),
              image.place.height() / static_cast<double>(image.rows));
  cairo_set_source_surface(cairo, surface.get(), 0.0, 0.0);
  // Without this the border would be mixed with what lies beyond the image: nothing.
  cairo_pattern_set_extend(cairo_get_source(cairo), CAIRO_EXTEND_PAD);
  cairo_rectangle(cairo, 0.0, 0.0, static_cast<double>(image.columns), static_cast<double>(image.rows));
  cairo_fill(cairo);
  cairo_restore(cairo);
}

void paint_text(cairo_t* cairo, const Text& text, Theme theme) {
  const std::string words = clean_text(text.words);
  const double width = text_width(words, text.size_pt);
  const double shift = text.anchor == Anchor::start ? 0.0 : text.anchor == Anchor::middle ? width / 2.0 : width;
  set_ink(cairo, colour_of(text.ink, theme));
  cairo_set_font_size(cairo, text.size_pt);
  cairo_move_to(cairo, text.at.x - shift, text.at.y);
  cairo_show_text(cairo, words.c_str());
}

void paint_line(cairo_t* cairo, const Polyline& line, Theme theme) {
  const std::vector<double> dashes = dash_lengths(line.dash, line.width_pt);
  cairo_set_dash(cairo, dashes.data(), static_cast<int>(dashes.size()), 0.0);
  cairo_set_line_width(cairo, line.width_pt);
  set_ink(cairo, colour_of(line.ink, theme));
  trace_path(cairo, line.points);
  cairo_stroke(cairo);
}

void paint(cairo_t* cairo, const Picture& picture, Theme theme) {
  // Unhinted metrics: widths as in text_width.h at every resolution.
  const std::unique_ptr<cairo_font_options_t, Release> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(cairo, options.get());
  cairo_select_font_face(cairo, kFontFamily, CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
  set_ink(cairo, colour_of(Ink::paper, theme));
  cairo_rectangle(cairo, 0.0, 0.0, picture.width_pt, picture.height_pt);
  cairo_fill(cairo);
  const Overloaded painter{
      [&](const Polyline& line) { paint_line(cairo, line, theme); },
      [&](const Filled& area) {
        set_ink(cairo, colour_of(area.ink, theme), area.opacity);
        trace_path(cairo, area.outline);
        cairo_close_path(cairo);
        cairo_fill(cairo);
      },
      [&](const Text& text) { paint_text(cairo, text, theme); },
      [&](const Image& image) { paint_image(cairo, image, theme); },
      [&](const Clip& clip) {
        cairo_save(cairo);
        cairo_rectangle(cairo, clip.place.left, clip.place.top, clip.place.width(), clip.place.height());
        cairo_clip(cairo);
      },
      [&](const Unclip&) { cairo_restore(cairo); },
  };
  for (const Mark& mark : picture.marks) std::visit(painter, mark);
  check_status(cairo_status(cairo));
}

std::string png_of(cairo_surface_t* surface) {
  std::string bytes;
  check_status(cairo_surface_write_to_png_stream(surface, append, &bytes));
  return bytes;
}

}  // namespace

std::string image_png(const Image& image, Theme theme) { return png_of(image_surface(image, theme).get()); }

std::string png_bytes(const Picture& picture, Theme theme, double pixels_per_pt) {
  check(pixels_per_pt >= 0.5 && pixels_per_pt <= 8.0, "0.5 .. 8 pixels per point");
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                   static_cast<int>(std::lround(picture.width_pt * pixels_per_pt)),
                                                   static_cast<int>(std::lround(picture.height_pt * pixels_per_pt))));
  check_status(cairo_surface_status(surface.get()));
  {
    const Context cairo(cairo_create(surface.get()));
    cairo_scale(cairo.get(), pixels_per_pt, pixels_per_pt);
    paint(cairo.get(), picture, theme);
  }
  return png_of(surface.get());
}

std::string pdf_bytes(std::span<const Picture> pictures, Theme theme, std::string_view title) {
  check(!pictures.empty(), "a PDF has a page");
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(append, &bytes, pictures.front().width_pt,
                                                            pictures.front().height_pt));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE, clean_text(title).c_str());
  // A fixed date, so that the same picture gives the same bytes.
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  {
    const Context cairo(cairo_create(surface.get()));
    for (const Picture& picture : pictures) {
      cairo_pdf_surface_set_size(surface.get(), picture.width_pt, picture.height_pt);
      cairo_save(cairo.get());
      paint(cairo.get(), picture, theme);
      cairo_restore(cairo.get());
      cairo_show_page(cairo.get());
    }
  }
  cairo_surface_finish(surface.get());
  check_status(cairo_surface_status(surface.get()));
  return bytes;
}

}  // namespace ringfall::plot
