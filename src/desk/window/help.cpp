// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/help.h"

#include "desk/parts/parts.h"

namespace ringfall::desk {
namespace {

struct KeyWords {
  const char* key;
  const char* words;
};
constexpr KeyWords kKeys[] = {
    {"F1 ... F8", "the places, left to right"},
    {"Tab, arrows, Space", "from one thing to the next (Shift and Tab: back); press it"},
    {"n, b", "the next shot, the one before"},
    {"1 ... 4", "one picture alone, all four again"},
    {"p, l", "play the shot, its tail over and over; again: silence"},
    {"d", "leave the shot out, with a reason"},
    {"wheel, drag", "zoom a picture (Shift: upwards), move it; double click shows all"},
    {"+, -, 0", "the same for the picture that has the keyboard; Shift and arrows move it"},
    {"Ctrl and click", "on the wave: the loud edge is here; with Shift: a shot was missed here"},
    {"a, x, b", "in Ears: A, the hidden one, B"},
    {"Ctrl+Z", "take the last change back"},
    {"Ctrl+T, Ctrl and + or -", "light or dark, larger or smaller type"},
    {"Ctrl+O", "open a logbook, on the first page"},
    {"Esc", "away with this"},
};

}  // namespace

void draw_help(const Stage& stage) {
  const ImVec2 room = ImGui::GetIO().DisplaySize;
  const ImVec2 size = {stage.px(740.0F), stage.px(450.0F)};
  ImGui::SetNextWindowPos({0.5F * (room.x - size.x), 0.5F * (room.y - size.y)});
  ImGui::SetNextWindowSize(size);
  ImGui::PushStyleColor(ImGuiCol_WindowBg, stage.palette.well);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, stage.px(22.0F, 18.0F));
  ImGui::Begin("keys", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings);
  ImGui::PopStyleVar();
  heading(stage, "Keys");
  gap(stage, 4.0F);
  for (const KeyWords& entry : kKeys) {
    line(stage, stage.fonts.strong, stage.palette.text, entry.key);
    ImGui::SameLine(stage.px(230.0F));
    line(stage, stage.fonts.text, stage.palette.text, entry.words);
  }
  ImGui::End();
  ImGui::PopStyleColor();
}

}  // namespace ringfall::desk
