// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/painter.h"

#include <algorithm>
#include <cmath>

#include "desk/figures/line_work.h"
#include "plot/colour_map.h"
#include "plot/cues.h"

namespace ringfall::desk {
namespace {

/// The smallest baked font that need not be enlarged.
ImFont* font_for(const Fonts& fonts, float size_px) {
  for (ImFont* font : fonts.picture) {
    if (font->FontSize >= size_px - 0.5F) return font;
  }
  return fonts.picture.back();
}

class Brush {
 public:
  Brush(const std::vector<ImTextureID>& textures, const Easel& easel) : textures_(textures), easel_(easel) {}

  void operator()(const plot::Polyline& line) {
    const auto width_px = std::max(1.0F, std::round(static_cast<float>(line.width_pt) * easel_.pixels_per_pt * 0.9F));
    points_.clear();
    for (const plot::Point& point : line.points) points_.push_back(at(point));
    const auto colour = packed(plot::colour_of(line.ink, easel_.theme));
    auto dashes = plot::dash_lengths(line.dash, line.width_pt);
    if (dashes.empty()) {
      thin_to_columns(points_);
      add_line(*easel_.list, points_, colour, width_px);
      return;
    }
    for (double& length : dashes) length *= static_cast<double>(easel_.pixels_per_pt);
    for (const auto& part : dashed(points_, dashes)) add_line(*easel_.list, part, colour, width_px);
  }
  void operator()(const plot::Filled& area) {
    points_.clear();
    for (const plot::Point& point : area.outline) points_.push_back(at(point));
    const auto colour = faded(packed(plot::colour_of(area.ink, easel_.theme)), static_cast<float>(area.opacity));
    add_area(*easel_.list, points_, colour);
  }
  void operator()(const plot::Text& text) {
    const auto size_px = static_cast<float>(text.size_pt) * easel_.pixels_per_pt;
    ImFont* font = font_for(*easel_.fonts, size_px);
    const char* end = text.words.data() + text.words.size();
    const float width_px = font->CalcTextSizeA(size_px, 1e9F, 0.0F, text.words.data(), end).x;
    ImVec2 place = at(text.at);
    if (text.anchor == plot::Anchor::middle) place.x -= 0.5F * width_px;
    if (text.anchor == plot::Anchor::end) place.x -= width_px;
    place.y -= font->Ascent * size_px / font->FontSize;  // `at` is on the base line
    // Glyphs are sharp on whole pixels only.
    easel_.list->AddText(font, size_px, {std::round(place.x), std::round(place.y)},
                         packed(plot::colour_of(text.ink, easel_.theme)), text.words.data(), end);
  }
  void operator()(const plot::Image& image) {
    const auto texture = next_texture_ < textures_.size() ? textures_[next_texture_] : nullptr;
    ++next_texture_;
    if (texture == nullptr) return;
    easel_.list->AddImage(texture, at({image.place.left, image.place.top}), at({image.place.right, image.place.bottom}));
  }
  void operator()(const plot::Clip& clip) {
    easel_.list->PushClipRect(at({clip.place.left, clip.place.top}), at({clip.place.right, clip.place.bottom}), true);
    ++clips_;
  }
  void operator()(const plot::Unclip& /*mark*/) {
    if (clips_ == 0) return;
    easel_.list->PopClipRect();
    --clips_;
  }
  void finish() {
    for (; clips_ > 0; --clips_) easel_.list->PopClipRect();
  }

 private:
  ImVec2 at(const plot::Point& point) const {
    return {easel_.origin.x + static_cast<float>(point.x) * easel_.pixels_per_pt,
            easel_.origin.y + static_cast<float>(point.y) * easel_.pixels_per_pt};
  }

  const std::vector<ImTextureID>& textures_;
  const Easel& easel_;
  std::vector<ImVec2> points_;
  std::size_t next_texture_ = 0;
  int clips_ = 0;
};

}  // namespace

plot::Measure picture_measure(const Fonts& fonts, float pixels_per_pt) {
  return [fonts, pixels_per_pt](std::string_view text, double size_pt) {
    const float size_px = static_cast<float>(size_pt) * pixels_per_pt;
    const ImFont* font = font_for(fonts, size_px);
    return static_cast<double>(font->CalcTextSizeA(size_px, 1e9F, 0.0F, text.data(), text.data() + text.size()).x /
                               pixels_per_pt);
  };
}

std::vector<ImTextureID> textures_of(const plot::Picture& picture, plot::Theme theme, Textures& textures) {
  std::vector<ImTextureID> made;
  for (const plot::Mark& mark : picture.marks) {
    const auto* image = std::get_if<plot::Image>(&mark);
    if (image == nullptr) continue;
    std::vector<std::uint8_t> rgba;
    rgba.reserve(4 * image->steps.size());
    for (const std::uint8_t step : image->steps) {
      const plot::Colour colour = plot::level_colour(step, theme);
      rgba.insert(rgba.end(), {colour.red, colour.green, colour.blue, 255});
    }
    made.push_back(textures.make(image->columns, image->rows, rgba));
  }
  return made;
}

void paint(const plot::Picture& picture, const std::vector<ImTextureID>& textures, const Easel& easel) {
  Brush brush(textures, easel);
  for (const plot::Mark& mark : picture.marks) std::visit(brush, mark);
  brush.finish();
}

}  // namespace ringfall::desk
