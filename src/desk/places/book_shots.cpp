// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

#include "desk/places/book_view.h"
#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

struct BookColumn {
  const char* id;     ///< of the number
  const char* head;
  const char* unit;
};
constexpr std::array kBookColumns = {BookColumn{"hum", "hum", "0-10"}, BookColumn{"ping", "ping", "0-10"},
                                     BookColumn{"exposure_db", "exposure", "dB(A)"}, BookColumn{"loudness_sone", "loudness", "sone"},
                                     BookColumn{"late_s", "ring-down", "s"}};
constexpr float kShotColumn = 86.0F;
constexpr float kNumberColumn = 78.0F;
constexpr float kNarrowColumn = 66.0F;
constexpr float kWideSheet = 900.0F;
constexpr float kRowHigh = 28.0F;

/// Right end of number `k`'s column, from the row's left end; one past the last: where the words begin.
float column_end(const Stage& stage, float width, std::size_t k) {
  const bool wide = width >= stage.px(kWideSheet);
  const float words = k == kBookColumns.size() ? 24.0F - (wide ? kNumberColumn : kNarrowColumn) : 0.0F;
  return stage.px((wide ? kShotColumn : kShotColumn - 22.0F) + (wide ? kNumberColumn : kNarrowColumn) * static_cast<float>(k + 1) + words);
}

void right_words(const Stage& stage, ImFont* font, ImU32 colour, float right, float y, const std::string& words) {
  const float wide = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.c_str()).x;
  ImGui::GetWindowDrawList()->AddText(font, font->FontSize, {std::round(right - wide), std::round(y)}, colour, words.c_str());
  static_cast<void>(stage);
}

}  // namespace

void BookView::shots(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet sheet(stage, "shots", size);
  const BookSheet& book = *desk.book;
  const float width = size.x - stage.px(40.0F);
  if (book.shots.empty()) {
    heading(stage, "No shots yet");
    paragraph(stage, stage.fonts.text, stage.palette.text,
              "Add a recording of some shots, or go to Range (F2) and let Ringfall listen while you shoot.");
    return;
  }
  const ImVec2 head = ImGui::GetCursorScreenPos();
  for (std::size_t k = 0; k < kBookColumns.size(); ++k) {
    const float right = head.x + column_end(stage, width, k);
    right_words(stage, stage.fonts.small, stage.palette.text, right, head.y, kBookColumns[k].head);
    right_words(stage, stage.fonts.small, stage.palette.muted, right, head.y + stage.px(16.0F), kBookColumns[k].unit);
  }
  ImGui::GetWindowDrawList()->AddText(stage.fonts.small, stage.fonts.small->FontSize,
                                      {head.x + column_end(stage, width, kBookColumns.size()), head.y},
                                      stage.palette.text, "said, and what spoils it");
  ImGui::Dummy({width, stage.px(36.0F)});
  ImGui::BeginChild("rows", {0.0F, 0.0F}, false, kInside);
  // Rows of one height, so that only those in sight are drawn: a block's head takes a row too.
  const int rows = static_cast<int>(book.blocks.size() + book.shots.size());
  ImGuiListClipper clipper;
  clipper.Begin(rows, stage.px(kRowHigh));
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {0.0F, 0.0F});
  while (clipper.Step()) {
    int first = 0;
    for (std::size_t block = 0; block < book.blocks.size() && first < clipper.DisplayEnd; ++block) {
      const int shots_here = static_cast<int>(book.blocks[block].shots.size());
      for (int k = 0; k <= shots_here; ++k, ++first) {
        if (first < clipper.DisplayStart || first >= clipper.DisplayEnd) continue;
        if (k == 0) block_row(desk, stage, book.blocks[block], width);
        else row(desk, stage, {block, static_cast<std::size_t>(k - 1)}, width);
      }
    }
  }
  ImGui::PopStyleVar();
  ImGui::EndChild();
}

void BookView::block_row(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float high = stage.px(kRowHigh);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const std::string name = fmt::format("block {}", block.number);
  if (ImGui::InvisibleButton(name.c_str(), {width, high})) desk.looked_into = block.number;
  stage.name_last(name);
  const bool over = ImGui::IsItemHovered();
  list.AddRectFilled(at, {at.x + width, at.y + high - stage.px(1.0F)}, faded(stage.palette.hover, over ? 1.0F : 0.6F));
  draw_setup_mark(stage, list, desk.book->setup_index(block.setup), {at.x + stage.px(12.0F), at.y + 0.5F * high}, stage.px(6.0F));
  std::string words = fmt::format("Block {}   {}", block.number, block.setup);
  std::string more = desk.book->blocks.front().session == desk.book->blocks.back().session ? "" : fmt::format("session {}, ", block.session);
  more += std::filesystem::path(block.file).filename().string();
  if (!block.note.empty()) more += ", " + block.note;
  if (const auto said = said_words(block.comments); !said.empty()) more += ", " + said;
  if (!block.dropped.empty()) more = "left out: " + block.dropped;
  const float y = at.y + 0.5F * (high - stage.fonts.strong->FontSize);
  list.AddText(stage.fonts.strong, stage.fonts.strong->FontSize, {at.x + stage.px(26.0F), y}, stage.palette.text, words.c_str());
  const float after = stage.fonts.strong->CalcTextSizeA(stage.fonts.strong->FontSize, 1e9F, 0.0F, words.c_str()).x;
  const float x = at.x + stage.px(44.0F) + after;
  list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {x, y + stage.px(2.0F)},
               block.dropped.empty() ? stage.palette.muted : stage.palette.caution,
               fitted(stage.fonts.small, more, at.x + width - x - stage.px(30.0F)).c_str());
  draw_icon(list, Icon::grow, {at.x + width - stage.px(14.0F), at.y + 0.5F * high}, stage.px(11.0F), over ? stage.palette.text : stage.palette.muted);
  show_focus(stage);
}

void BookView::row(Desk& desk, const Stage& stage, const ShotAt& at, float width) {
  const logbook::KeptShot& shot = desk.book->shot(at);
  const bool counts = shot.dropped.empty() && desk.book->block(at).dropped.empty();
  const std::string name = fmt::format("shot {}", shot.id);
  const float high = stage.px(kRowHigh);
  if (ImGui::InvisibleButton(name.c_str(), {width, high})) desk.choose(shot.id);
  stage.name_last(name);
  if (ImGui::IsItemHovered() && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) desk.place = Place::shot;
  const ImVec2 low = ImGui::GetItemRectMin();
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const bool chosen = desk.chosen == shot.id;
  if (chosen || ImGui::IsItemHovered()) list.AddRectFilled(low, ImGui::GetItemRectMax(), stage.palette.hover);
  if (chosen) list.AddRectFilled(low, {low.x + stage.px(4.0F), low.y + high}, stage.palette.wax);
  const float y = low.y + 0.5F * (high - stage.fonts.text->FontSize);
  const ImU32 ink = counts ? stage.palette.text : stage.palette.muted;
  list.AddText(stage.fonts.text, stage.fonts.text->FontSize, {low.x + stage.px(26.0F), y}, ink, fmt::format("{}", shot.id).c_str());
  const bool shown = numbers_shown(desk.book->block(at), shot, desk.preferences.words_first);
  for (std::size_t k = 0; k < kBookColumns.size(); ++k) {
    const float right = low.x + column_end(stage, width, k);
    const auto* number = shot::find_number(kBookColumns[k].id);
    right_words(stage, stage.fonts.text, ink, right, y, shown ? value_words(*number, shot.shot) : "?");
  }
  float x = low.x + column_end(stage, width, kBookColumns.size());
  const bool spoilt = std::ranges::any_of(shot.shot.findings, [](const Finding& f) { return f.severity != Severity::note; });
  if (!shot.dropped.empty() || spoilt) {
    draw_icon(list, shot.dropped.empty() ? Icon::caution : Icon::cross, {x + stage.px(6.0F), low.y + 0.5F * high}, stage.px(12.0F),
              stage.palette.caution);
    x += stage.px(20.0F);
  }
  const std::string words = shot.dropped.empty() ? said_words(shot.comments) : "left out: " + shot.dropped;
  const std::string room = fitted(stage.fonts.small, words, low.x + width - x);
  list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {x, y + stage.px(2.0F)}, counts ? stage.palette.text : stage.palette.muted,
               room.c_str());
  if (room != words) show_tip(stage, words);
  show_focus(stage);
}

}  // namespace ringfall::desk
