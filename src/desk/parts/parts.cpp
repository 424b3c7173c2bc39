// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/parts.h"

#include <fmt/format.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <cmath>

namespace ringfall::desk {
namespace {

std::string_view shown(std::string_view name) { return name.substr(0, name.find("##")); }

ImVec2 size_of(ImFont* font, std::string_view words) {
  return font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.data(), words.data() + words.size());
}

void put(ImFont* font, ImVec2 at, ImU32 colour, std::string_view words) {
  ImGui::GetWindowDrawList()->AddText(font, font->FontSize, {std::round(at.x), std::round(at.y)}, colour, words.data(),
                                      words.data() + words.size());
}

/// Two corners cut off, as an arrow's nock is: the shape of everything that can be pressed.
void nocked(ImVec2 low, ImVec2 high, float cut, ImU32 colour, bool filled, float width) {
  const ImVec2 points[] = {{low.x, low.y}, {high.x - cut, low.y}, {high.x, low.y + cut},
                           {high.x, high.y}, {low.x + cut, high.y}, {low.x, high.y - cut}};
  ImDrawList& list = *ImGui::GetWindowDrawList();
  if (filled) list.AddConvexPolyFilled(points, 6, colour);
  else list.AddPolyline(points, 6, colour, ImDrawFlags_Closed, width);
}

}  // namespace

void show_tip(const Stage& stage, const std::string& words) {
  const bool by_keyboard = ImGui::IsItemFocused() && ImGui::GetIO().NavVisible;
  if (words.empty() || !(ImGui::IsItemHovered(ImGuiHoveredFlags_AllowWhenDisabled) || by_keyboard)) return;
  if (by_keyboard) ImGui::SetNextWindowPos({ImGui::GetItemRectMin().x, ImGui::GetItemRectMax().y + stage.px(6.0F)});
  if (stage.told != nullptr) *stage.told = words;
  ImGui::BeginTooltip();
  line(stage, stage.fonts.text, stage.palette.text, broken(stage.fonts.text, words, stage.px(420.0F)));
  ImGui::EndTooltip();
}

void show_focus(const Stage& stage) {
  if (!ImGui::IsItemFocused() || !ImGui::GetIO().NavVisible) return;
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  const float out = stage.px(3.0F);
  nocked({low.x - out, low.y - out}, {high.x + out, high.y + out}, stage.px(8.0F), stage.palette.wax, false, stage.px(2.0F));
}

bool push(const Stage& stage, const char* name, const PushLook& look) {
  const Palette& palette = stage.palette;
  ImFont* font = look.kind == Push::main ? stage.fonts.strong : stage.fonts.text;
  const std::string_view words = shown(name);
  const ImVec2 text = size_of(font, words);
  const float sign = look.icon == Icon::none ? 0.0F : stage.px(13.0F);
  const float between = sign > 0.0F && !words.empty() ? stage.px(8.0F) : 0.0F;
  const float side = stage.px(look.kind == Push::quiet ? 6.0F : 13.0F);
  const ImVec2 size = {look.width > 0.0F ? look.width : text.x + sign + between + 2.0F * side, stage.px(34.0F)};
  ImGui::BeginDisabled(!look.enabled);
  const bool pressed = ImGui::InvisibleButton(name, size);
  ImGui::EndDisabled();
  stage.name_last(name);
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  const bool over = look.enabled && ImGui::IsItemHovered();
  const float cut = stage.px(7.0F);
  ImU32 ink = palette.text;
  if (look.kind == Push::main && look.enabled) {
    nocked(low, high, cut, over ? faded(palette.wax, 0.86F) : palette.wax, true, 0.0F);
    ink = palette.on_wax;
  } else {
    if (over || look.lit) nocked(low, high, cut, palette.hover, true, 0.0F);
    if (look.kind != Push::quiet) nocked(low, high, cut, look.lit ? palette.wax : palette.hem, false, stage.px(look.lit ? 2.0F : 1.0F));
    if (look.kind == Push::quiet) ink = look.lit ? palette.text : palette.muted;
  }
  if (!look.enabled) ink = faded(palette.muted, 0.65F);
  const float room = high.x - low.x - 2.0F * stage.px(5.0F) - sign - between;
  const std::string label = fitted(font, words, room);
  if (stage.wordless != nullptr && words.empty() && look.tip.empty()) stage.wordless->emplace_back(name);
  if (stage.cut != nullptr && label != words) stage.cut->emplace_back(words);
  const float wide = size_of(font, label).x;
  float x = look.to_left ? low.x + side : low.x + 0.5F * (high.x - low.x - wide - sign - between);
  const float middle = 0.5F * (low.y + high.y);
  if (sign > 0.0F) {
    draw_icon(*ImGui::GetWindowDrawList(), look.icon, {x + 0.5F * sign, middle}, sign, ink);
    x += sign + between;
  }
  put(font, {x, middle - 0.5F * text.y}, ink, label);
  show_focus(stage);
  show_tip(stage, look.tip);
  return pressed && look.enabled;
}

bool field(const Stage& stage, const char* name, const char* hint, std::string& text, float width, bool* entered) {
  ImGui::SetNextItemWidth(width);
  const std::string id = fmt::format("##{}", name);
  const bool done = ImGui::InputTextWithHint(id.c_str(), hint, &text, ImGuiInputTextFlags_EnterReturnsTrue);
  const bool changed = ImGui::IsItemEdited();
  stage.name_last(name, true);
  const ImVec2 low = ImGui::GetItemRectMin();
  const ImVec2 high = ImGui::GetItemRectMax();
  const bool writing = ImGui::IsItemActive();
  ImGui::GetWindowDrawList()->AddLine({low.x, high.y}, {high.x, high.y}, writing ? stage.palette.wax : stage.palette.hem,
                                      stage.px(writing ? 2.0F : 1.0F));
  show_focus(stage);
  if (!writing && size_of(stage.fonts.text, text).x > high.x - low.x - stage.px(20.0F)) show_tip(stage, text);
  if (entered != nullptr) *entered = done;
  return changed;
}

bool one_of(const Stage& stage, const char* name, const std::vector<std::string>& words, std::size_t& chosen) {
  bool changed = false;
  const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
  for (std::size_t k = 0; k < words.size(); ++k) {
    const float wide = size_of(stage.fonts.text, words[k]).x + 2.0F * stage.px(13.0F);
    if (k > 0) {
      ImGui::SameLine(0.0F, stage.px(5.0F));
      if (ImGui::GetCursorScreenPos().x + wide > right) ImGui::NewLine();
    }
    if (push(stage, fmt::format("{}##{}", words[k], name).c_str(), {.kind = Push::plain, .lit = k == chosen}) && k != chosen) {
      chosen = k;
      changed = true;
    }
  }
  return changed;
}

bool on_off(const Stage& stage, const char* name, bool& on) {
  const std::string_view words = shown(name);
  const float box = stage.px(18.0F);
  const ImVec2 text = size_of(stage.fonts.text, words);
  const bool pressed = ImGui::InvisibleButton(name, {box + stage.px(9.0F) + text.x, stage.px(28.0F)});
  stage.name_last(name);
  if (pressed) on = !on;
  const ImVec2 low = ImGui::GetItemRectMin();
  const float middle = 0.5F * (low.y + ImGui::GetItemRectMax().y);
  const ImU32 edge = ImGui::IsItemHovered() ? stage.palette.wax : stage.palette.muted;
  nocked({low.x, middle - 0.5F * box}, {low.x + box, middle + 0.5F * box}, stage.px(5.0F), on ? stage.palette.wax : edge, on,
         stage.px(1.0F));
  if (on) draw_icon(*ImGui::GetWindowDrawList(), Icon::tick, {low.x + 0.5F * box, middle}, 0.6F * box, stage.palette.on_wax);
  put(stage.fonts.text, {low.x + box + stage.px(9.0F), middle - 0.5F * text.y}, stage.palette.text, words);
  show_focus(stage);
  return pressed;
}

}  // namespace ringfall::desk
