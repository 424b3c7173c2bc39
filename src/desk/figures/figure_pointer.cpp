// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "desk/figures/figure_pane.h"
#include "desk/parts/keys.h"
#include "desk/figures/painter.h"

namespace ringfall::desk {
namespace {

constexpr double kZoomStep_out = 1.25;
constexpr double kKeyMove_pt = 24.0;
constexpr float kStill_px = 4.0F;

}  // namespace

void FigurePane::work(const Stage& stage, const plot::Figure& figure, ImVec2 origin, float pixels_per_pt) {
  const ImGuiIO& io = ImGui::GetIO();
  read_out_.clear();
  pressed_x_.reset();
  const bool together = figure.shared_x;
  const bool over = ImGui::IsItemHovered();
  const auto panel = over || ImGui::IsItemActive() ? panel_at(io.MousePos, origin, pixels_per_pt) : std::nullopt;
  if (panel) {
    const plot::Frame& frame = laid_out_.frames[*panel];
    const plot::Point at = frame.to_data({static_cast<double>((io.MousePos.x - origin.x) / pixels_per_pt),
                                          static_cast<double>((io.MousePos.y - origin.y) / pixels_per_pt)});
    if (io.MouseWheel != 0.0F) {
      const double factor = std::pow(kZoomStep_out, -static_cast<double>(io.MouseWheel));
      zoom(*panel, io.KeyShift, io.KeyShift ? at.y : at.x, factor, together);
    }
    if (ImGui::IsItemActive() && ImGui::IsMouseDragging(ImGuiMouseButton_Left, kStill_px)) {
      move(*panel, static_cast<double>(io.MouseDelta.x / pixels_per_pt), static_cast<double>(io.MouseDelta.y / pixels_per_pt),
           together);
    }
    if (over && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) {
      views_.assign(views_.size(), {});
      stale_ = true;
    } else if (ImGui::IsItemDeactivated() && std::hypot(ImGui::GetMouseDragDelta().x, ImGui::GetMouseDragDelta().y) < kStill_px) {
      pressed_x_ = at.x;
    }
    if (over) point_out(stage, figure, *panel, origin, pixels_per_pt);
  }
  if (!ImGui::IsItemFocused() || io.WantTextInput || laid_out_.frames.empty()) return;
  const plot::Frame& first = laid_out_.frames.front();
  const double middle = first.x.to_data(0.5 * (first.x.from_pt + first.x.to_pt));
  if (key_pressed(Key::equal) || key_pressed(Key::keypad_add)) zoom(0, false, middle, 1.0 / kZoomStep_out, together);
  if (key_pressed(Key::minus) || key_pressed(Key::keypad_subtract)) zoom(0, false, middle, kZoomStep_out, together);
  if (io.KeyShift && key_pressed(Key::left)) move(0, kKeyMove_pt, 0.0, together);
  if (io.KeyShift && key_pressed(Key::right)) move(0, -kKeyMove_pt, 0.0, together);
  if (key_pressed(Key::zero)) {
    views_.assign(views_.size(), {});
    stale_ = true;
  }
}

void FigurePane::point_out(const Stage& stage, const plot::Figure& figure, std::size_t panel, ImVec2 origin, float pixels_per_pt) {
  const ImVec2 pointer = ImGui::GetIO().MousePos;
  const plot::Frame& frame = laid_out_.frames[panel];
  read_out_ = place_words(figure.panels[panel], frame,
                          frame.to_data({static_cast<double>((pointer.x - origin.x) / pixels_per_pt),
                                         static_cast<double>((pointer.y - origin.y) / pixels_per_pt)}));
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImU32 ink = faded(stage.palette.text, 0.45F);
  const auto page = [&](double x, double y) {
    return ImVec2(origin.x + static_cast<float>(x) * pixels_per_pt, origin.y + static_cast<float>(y) * pixels_per_pt);
  };
  const ImVec2 low = page(frame.place.left, frame.place.top);
  const ImVec2 high = page(frame.place.right, frame.place.bottom);
  list.AddLine({pointer.x, low.y}, {pointer.x, high.y}, ink);
  list.AddLine({low.x, pointer.y}, {high.x, pointer.y}, ink);
  ImFont* font = stage.fonts.small;
  const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, read_out_.c_str());
  const float pad = stage.px(5.0F);
  ImVec2 at = {pointer.x + stage.px(12.0F), pointer.y - size.y - stage.px(12.0F)};
  at.x = std::clamp(at.x, low.x + pad, std::max(low.x + pad, high.x - size.x - pad));
  if (at.y < low.y + pad) at.y = pointer.y + stage.px(14.0F);
  list.AddRectFilled({at.x - pad, at.y - pad}, {at.x + size.x + pad, at.y + size.y + pad}, faded(stage.palette.ground, 0.92F));
  list.AddText(font, font->FontSize, {std::round(at.x), std::round(at.y)}, stage.palette.text, read_out_.c_str());
}

}  // namespace ringfall::desk
