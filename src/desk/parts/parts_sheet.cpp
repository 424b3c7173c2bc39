// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desk/parts/parts.h"

namespace ringfall::desk {

bool rating(const Stage& stage, const char* name, std::optional<double>& value, float width) {
  constexpr int kBeads = 11;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float word = stage.px(48.0F);
  const float high = stage.px(26.0F);
  const float step = std::min((width - word) / kBeads, stage.px(26.0F));
  ImDrawList& list = *ImGui::GetWindowDrawList();
  list.AddText(stage.fonts.text, stage.fonts.text->FontSize, {at.x, at.y + 0.5F * (high - stage.fonts.text->FontSize)},
               stage.palette.text, name);
  bool changed = false;
  for (int k = 0; k < kBeads; ++k) {
    ImGui::SetCursorScreenPos({at.x + word + static_cast<float>(k) * step, at.y});
    const std::string id = fmt::format("{} {}", name, k);
    if (ImGui::InvisibleButton(id.c_str(), {step, high})) {
      const bool again = value && static_cast<int>(std::lround(*value)) == k;
      value = again ? std::nullopt : std::optional(static_cast<double>(k));
      changed = true;
    }
    stage.name_last(id);
    const ImVec2 middle = {at.x + word + (static_cast<float>(k) + 0.5F) * step, at.y + 0.5F * high};
    const bool chosen = value && static_cast<int>(std::lround(*value)) == k;
    const bool below = value && *value > static_cast<double>(k);
    const float radius = 0.5F * step - stage.px(1.5F);
    if (chosen) list.AddCircleFilled(middle, radius, stage.palette.wax, 20);
    else list.AddCircleFilled(middle, radius, ImGui::IsItemHovered() ? stage.palette.hover : stage.palette.well, 20);
    if (below) list.AddCircle(middle, radius, stage.palette.wax, 20, stage.px(1.0F));
    const std::string digits = fmt::format("{}", k);
    ImFont* font = stage.fonts.picture[0];
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, digits.c_str());
    list.AddText(font, font->FontSize, {std::round(middle.x - 0.5F * size.x), std::round(middle.y - 0.5F * size.y)},
                 chosen ? stage.palette.on_wax : stage.palette.muted, digits.c_str());
    show_focus(stage);
  }
  ImGui::SetCursorScreenPos({at.x, at.y + high + stage.px(3.0F)});
  ImGui::Dummy({1.0F, 0.0F});
  return changed;
}

Sheet::Sheet(const Stage& stage, const char* name, ImVec2 size, bool padded) {
  ImGui::PushStyleColor(ImGuiCol_ChildBg, stage.palette.sheet);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, padded ? stage.px(16.0F, 12.0F) : ImVec2(0.0F, 0.0F));
  ImGui::BeginChild(name, size, false, kInside | (padded ? ImGuiWindowFlags_AlwaysUseWindowPadding : ImGuiWindowFlags_None));
  ImGui::PopStyleVar();
  ImGui::PopStyleColor();
}

Sheet::~Sheet() { ImGui::EndChild(); }

void tiles(const Stage& stage, const std::vector<Tile>& row, float width) {
  if (row.empty()) return;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float each = width / static_cast<float>(row.size());
  const float high = stage.px(74.0F);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  for (std::size_t k = 0; k < row.size(); ++k) {
    const float x = at.x + static_cast<float>(k) * each;
    const Tile& tile = row[k];
    if (k > 0) list.AddLine({x, at.y + stage.px(8.0F)}, {x, at.y + high - stage.px(8.0F)}, stage.palette.hem);
    const float left = x + stage.px(k > 0 ? 14.0F : 0.0F);
    ImFont* big = each < stage.px(150.0F) ? stage.fonts.title : stage.fonts.figure;
    list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {left, at.y}, stage.palette.muted, tile.word.c_str());
    const ImVec2 size = big->CalcTextSizeA(big->FontSize, 1e9F, 0.0F, tile.value.c_str());
    const float base = at.y + high - stage.px(12.0F);
    list.AddText(big, big->FontSize, {left, base - big->Ascent}, tile.value == "-" ? stage.palette.muted : stage.palette.text,
                 tile.value.c_str());
    list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {left + size.x + stage.px(5.0F), base - stage.fonts.small->Ascent},
                 stage.palette.muted, tile.unit.c_str());
    if (tile.doubtful) {
      draw_icon(list, Icon::caution, {left + size.x + stage.px(12.0F), base - stage.px(28.0F)}, stage.px(13.0F), stage.palette.caution);
    }
  }
  ImGui::Dummy({width, high});
}

}  // namespace ringfall::desk
