// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/parts.h"

namespace ringfall::desk {
namespace {

ImVec4 unpacked(ImU32 colour) { return ImGui::ColorConvertU32ToFloat4(colour); }

}  // namespace

void dress(const Stage& stage) {
  ImGuiStyle& style = ImGui::GetStyle();
  const Palette& palette = stage.palette;
  style = ImGuiStyle();
  style.WindowPadding = stage.px(14.0F, 12.0F);
  style.FramePadding = stage.px(10.0F, 6.0F);
  style.ItemSpacing = stage.px(8.0F, 6.0F);
  style.ItemInnerSpacing = stage.px(6.0F, 4.0F);
  style.ScrollbarSize = stage.px(9.0F);
  style.WindowBorderSize = 0.0F;
  style.ChildBorderSize = 0.0F;
  style.FrameBorderSize = 0.0F;
  style.PopupBorderSize = stage.px(1.0F);
  style.ScrollbarRounding = 0.0F;
  style.FrameRounding = 0.0F;
  const auto set = [&style](ImGuiCol which, ImU32 colour) { style.Colors[which] = unpacked(colour); };
  set(ImGuiCol_Text, palette.text);
  set(ImGuiCol_TextDisabled, palette.muted);
  set(ImGuiCol_WindowBg, palette.ground);
  set(ImGuiCol_ChildBg, 0);
  set(ImGuiCol_PopupBg, palette.sheet);
  set(ImGuiCol_Border, palette.hem);
  set(ImGuiCol_FrameBg, palette.well);
  set(ImGuiCol_FrameBgHovered, palette.hover);
  set(ImGuiCol_FrameBgActive, palette.hover);
  set(ImGuiCol_ScrollbarBg, 0);
  set(ImGuiCol_ScrollbarGrab, palette.hem);
  set(ImGuiCol_ScrollbarGrabHovered, palette.muted);
  set(ImGuiCol_ScrollbarGrabActive, palette.wax);
  set(ImGuiCol_TextSelectedBg, faded(palette.wax, 0.45F));
  set(ImGuiCol_NavHighlight, palette.wax);
}

void line(const Stage& /*stage*/, ImFont* font, ImU32 colour, std::string_view words) {
  ImGui::PushFont(font);
  ImGui::PushStyleColor(ImGuiCol_Text, colour);
  ImGui::TextUnformatted(words.data(), words.data() + words.size());
  ImGui::PopStyleColor();
  ImGui::PopFont();
}

std::string fitted(ImFont* font, std::string_view words, float width) {
  const auto wide = [font](std::string_view text) {
    return font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, text.data(), text.data() + text.size()).x;
  };
  if (wide(words) <= width) return std::string(words);
  const float room = width - wide("...");
  std::size_t keep = words.size();
  while (keep > 0 && (wide(words.substr(0, keep)) > room || (static_cast<unsigned char>(words[keep]) & 0xC0U) == 0x80U)) --keep;
  return std::string(words.substr(0, keep)) + "...";
}

void heading(const Stage& stage, std::string_view words) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float size = stage.fonts.strong->FontSize;
  ImGui::GetWindowDrawList()->AddRectFilled({at.x, at.y + 0.28F * size}, {at.x + stage.px(4.0F), at.y + 0.98F * size},
                                            stage.palette.wax);
  ImGui::SetCursorScreenPos({at.x + stage.px(11.0F), at.y});
  line(stage, stage.fonts.strong, stage.palette.text, words);
}

void gap(const Stage& stage, float units) { ImGui::Dummy({1.0F, stage.px(units)}); }

}  // namespace ringfall::desk
