// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/strip.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

struct StripScale {
  double low = 0.0;
  double high = 10.0;
};

/// Scores run from 0 to 10; other numbers over what may be seen.
StripScale scale_of(const BookSheet& book, const shot::Number& number, bool words_first) {
  if (number.unit == "points") return {};
  StripScale scale{1e300, -1e300};
  for (const ShotAt& at : book.shots) {
    if (!numbers_shown(book.block(at), book.shot(at), words_first)) continue;
    if (const auto value = number.of(book.shot(at).shot)) {
      scale.low = std::min(scale.low, *value);
      scale.high = std::max(scale.high, *value);
    }
  }
  if (!(scale.high > scale.low)) return {scale.low - 1.0, scale.low + 1.0};
  const double below = 0.15 * (scale.high - scale.low);
  return {scale.low - below, scale.high};
}

}  // namespace

void draw_strip(Desk& desk, const Stage& stage, ImVec2 size) {
  if (!desk.book || desk.book->shots.empty()) return;
  const BookSheet& book = *desk.book;
  const shot::Number* number = shot::find_number(desk.preferences.main_number);
  const StripScale scale = scale_of(book, *number, desk.preferences.words_first);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImGui::InvisibleButton("strip", size);
  stage.name_last("strip");
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float gap_px = stage.px(book.blocks.size() > 40 ? 2.0F : 10.0F);
  const float step = std::max(0.2F, (size.x - gap_px * static_cast<float>(book.blocks.size())) / static_cast<float>(book.shots.size()));
  const float wide = std::clamp(0.55F * step, 1.0F, stage.px(9.0F));
  const float foot = at.y + size.y - stage.px(20.0F);
  const float head = at.y + stage.px(6.0F);
  list.AddLine({at.x, foot}, {at.x + size.x, foot}, stage.palette.hem);
  const ImVec2 pointer = ImGui::GetIO().MousePos;
  const bool over = ImGui::IsItemHovered();
  float x = at.x;
  float named_to = at.x;
  for (const auto& block : book.blocks) {
    const float begin = x;
    const std::size_t setup = book.setup_index(block.setup);
    for (const auto& shot : block.shots) {
      const float middle = x + 0.5F * step;
      const bool counts = shot.dropped.empty() && block.dropped.empty();
      const bool shown = numbers_shown(block, shot, desk.preferences.words_first);
      const auto value = shown ? number->of(shot.shot) : std::nullopt;
      const double share = value ? std::clamp((*value - scale.low) / (scale.high - scale.low), 0.0, 1.0) : 0.0;
      const float top = value ? foot - stage.px(3.0F) - static_cast<float>(share) * (foot - head - stage.px(6.0F)) : foot - stage.px(5.0F);
      const ImU32 ink = counts ? setup_colour(stage, setup) : stage.palette.muted;
      const bool hit = over && pointer.x >= x && pointer.x < x + step;
      if (hit || desk.chosen == shot.id) {
        list.AddRectFilled({x, head - stage.px(4.0F)}, {x + std::max(step, 2.0F), foot}, stage.palette.hover);
      }
      if (counts && value) list.AddRectFilled({middle - 0.5F * wide, top}, {middle + 0.5F * wide, foot}, ink);
      else list.AddRect({middle - 0.5F * wide, top}, {middle + 0.5F * wide, foot}, ink);
      if (desk.chosen == shot.id) {
        const float y = head - stage.px(5.0F);
        list.AddTriangleFilled({middle - stage.px(5.0F), y}, {middle + stage.px(5.0F), y}, {middle, y + stage.px(7.0F)}, stage.palette.wax);
      }
      if (hit) {
        if (ImGui::IsItemActive()) desk.choose(shot.id);
        ImGui::SetTooltip("shot %lld, %s: %s %s", static_cast<long long>(shot.id), block.setup.c_str(),
                          std::string(number->label).c_str(), shown ? value_words(*number, shot.shot).c_str() : "?");
      }
      x += step;
    }
    if (begin >= named_to) {
      draw_setup_mark(stage, list, setup, {begin + stage.px(6.0F), foot + stage.px(11.0F)}, stage.px(4.0F));
      ImFont* font = stage.fonts.picture[0];
      const std::string words = fitted(font, fmt::format("{}  {}", block.number, block.setup), std::max(x - begin - stage.px(8.0F), stage.px(24.0F)));
      list.AddText(font, font->FontSize, {begin + stage.px(14.0F), foot + stage.px(4.0F)}, stage.palette.muted, words.c_str());
      named_to = begin + stage.px(22.0F) + font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.c_str()).x;
    }
    x += gap_px;
  }
}

}  // namespace ringfall::desk
