// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/figures/figure_pane.h"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "desk/figures/painter.h"
#include "desk/parts/parts.h"  // show_focus

namespace ringfall::desk {
namespace {

double on_map(const plot::AxisMap& map, double value) {
  return map.scale == plot::Scale::logarithmic ? std::log10(std::max(value, 1e-12)) : value;
}
double off_map(const plot::AxisMap& map, double value) {
  return map.scale == plot::Scale::logarithmic ? std::pow(10.0, value) : value;
}

/// Digits that tell neighbouring pixels apart.
int digits_for(const plot::AxisMap& map, double at) {
  const double step = std::abs(map.to_data(map.to_page(at) + 0.7) - at);
  if (!(step > 0.0)) return 1;
  return std::clamp(static_cast<int>(std::ceil(-std::log10(step))), 0, 5);
}

std::string axis_words(const plot::Axis& axis, const plot::AxisMap& map, double value) {
  if (!axis.categories.empty()) {
    const auto index = static_cast<std::ptrdiff_t>(std::lround(value));
    if (index < 0 || index >= static_cast<std::ptrdiff_t>(axis.categories.size())) return {};
    return axis.categories[static_cast<std::size_t>(index)];
  }
  return fmt::format("{} {:.{}f}{}{}", axis.quantity, value, digits_for(map, value), axis.unit.empty() ? "" : " ", axis.unit);
}

}  // namespace

std::string place_words(const plot::Panel& panel, const plot::Frame& frame, plot::Point at) {
  const std::string x = axis_words(panel.x, frame.x, at.x);
  const std::string y = axis_words(panel.y, frame.y, at.y);
  return x.empty() || y.empty() ? x + y : x + ",  " + y;
}

FigurePane::~FigurePane() { forget_textures(); }

void FigurePane::forget_textures() {
  for (ImTextureID texture : made_) owner_->drop(texture);
  made_.clear();
}

void FigurePane::lay_out(const Stage& stage, const plot::Figure& figure, ImVec2 size) {
  const float pixels_per_pt = kPixelsPerPoint * stage.scale;
  plot::Figure shown = figure;
  shown.width_pt = static_cast<double>(size.x / pixels_per_pt);
  shown.height_pt = static_cast<double>(size.y / pixels_per_pt);
  shown.caption.clear();  // captions are the report's
  views_.resize(shown.panels.size());
  for (std::size_t k = 0; k < shown.panels.size(); ++k) {
    const View& view = views_[k];
    if (view.x_low) shown.panels[k].x.low = view.x_low, shown.panels[k].x.high = view.x_high;
    if (view.y_low) shown.panels[k].y.low = view.y_low, shown.panels[k].y.high = view.y_high;
  }
  laid_out_ = plot::layout(shown, picture_measure(stage.fonts, pixels_per_pt));
  forget_textures();
  owner_ = stage.textures;
  if (owner_ != nullptr) made_ = textures_of(laid_out_.picture, stage.palette.theme, *owner_);
  stale_ = false;
}

std::optional<std::size_t> FigurePane::panel_at(ImVec2 pointer, ImVec2 origin, float pixels_per_pt) const {
  const auto x = static_cast<double>((pointer.x - origin.x) / pixels_per_pt);
  const auto y = static_cast<double>((pointer.y - origin.y) / pixels_per_pt);
  for (std::size_t k = 0; k < laid_out_.frames.size(); ++k) {
    const plot::Rect& place = laid_out_.frames[k].place;
    if (x >= place.left && x <= place.right && y >= place.top && y <= place.bottom) return k;
  }
  return std::nullopt;
}

void FigurePane::zoom(std::size_t panel, bool along_y, double centre, double factor, bool together) {
  const auto apply = [&](std::size_t k) {
    const plot::AxisMap& map = along_y ? laid_out_.frames[k].y : laid_out_.frames[k].x;
    const double middle = on_map(map, centre);
    const double low = middle + (on_map(map, map.low) - middle) * factor;
    const double high = middle + (on_map(map, map.high) - middle) * factor;
    if (!(high - low > 1e-9 * (std::abs(high) + std::abs(low) + 1e-6))) return;
    (along_y ? views_[k].y_low : views_[k].x_low) = off_map(map, low);
    (along_y ? views_[k].y_high : views_[k].x_high) = off_map(map, high);
  };
  // Panels that share x stay together.
  for (std::size_t k = 0; k < views_.size(); ++k) {
    if (k == panel || (together && !along_y)) apply(k);
  }
  stale_ = true;
}

void FigurePane::move(std::size_t panel, double by_x_pt, double by_y_pt, bool together) {
  const auto shift = [](const plot::AxisMap& map, double by_pt, std::optional<double>& low, std::optional<double>& high) {
    if (by_pt == 0.0) return;
    low = map.to_data(map.from_pt - by_pt);
    high = map.to_data(map.to_pt - by_pt);
  };
  for (std::size_t k = 0; k < views_.size(); ++k) {
    if (k == panel || together) shift(laid_out_.frames[k].x, by_x_pt, views_[k].x_low, views_[k].x_high);
    if (k == panel) shift(laid_out_.frames[k].y, by_y_pt, views_[k].y_low, views_[k].y_high);
  }
  stale_ = true;
}

bool FigurePane::take_up(const Stage& stage, const plot::Figure& figure, std::uint64_t revision, ImVec2& size) {
  size = {std::floor(size.x), std::floor(size.y)};
  if (size.x < 40.0F || size.y < 40.0F) return false;
  if (revision != revision_) views_.clear();
  if (stale_ || revision != revision_ || size.x != size_.x || size.y != size_.y || font_ != stage.fonts.text ||
      theme_ != stage.palette.theme) {
    revision_ = revision;
    size_ = size;
    font_ = stage.fonts.text;
    theme_ = stage.palette.theme;
    lay_out(stage, figure, size);
  }
  return true;
}

void FigurePane::paint_at(const Stage& stage, ImVec2 origin) const {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.AddRectFilled(origin, {origin.x + size_.x, origin.y + size_.y}, stage.palette.sheet);
  paint(laid_out_.picture, made_, {&list, origin, kPixelsPerPoint * stage.scale, &stage.fonts, stage.palette.theme});
}

void FigurePane::draw_still(const Stage& stage, const char* name, const plot::Figure& figure, std::uint64_t revision, ImVec2 size) {
  if (!take_up(stage, figure, revision, size)) return;
  const ImVec2 origin = ImGui::GetCursorScreenPos();
  ImGui::Dummy(size);
  stage.name_last(name);
  paint_at(stage, origin);
}

void FigurePane::draw(const Stage& stage, const char* name, const plot::Figure& figure, std::uint64_t revision, ImVec2 size) {
  if (!take_up(stage, figure, revision, size)) return;
  const ImVec2 origin = ImGui::GetCursorScreenPos();
  const float pixels_per_pt = kPixelsPerPoint * stage.scale;
  ImGui::InvisibleButton(name, size);
  stage.name_last(name);
  for (std::size_t k = 0; stage.places != nullptr && k < laid_out_.frames.size(); ++k) {
    const plot::Rect& place = laid_out_.frames[k].place;
    const auto page = [&](double x, double y) {
      return ImVec2(origin.x + static_cast<float>(x) * pixels_per_pt, origin.y + static_cast<float>(y) * pixels_per_pt);
    };
    (*stage.places)[fmt::format("{} panel {}", name, k)] = {page(place.left, place.top), page(place.right, place.bottom)};
  }
  ImGui::SetItemUsingMouseWheel();
  paint_at(stage, origin);
  work(stage, figure, origin, pixels_per_pt);
  show_focus(stage);
}

}  // namespace ringfall::desk
