// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/parts.h"
#include "desk/range_view.h"
#include "desk/words.h"

namespace ringfall::desk {
namespace {

constexpr double kMeterFloor_db = -90.0;

struct BigFigure {
  const char* id;
  const char* word;
  const char* unit;
};
constexpr BigFigure kBigFigures[] = {{"hum", "hum", "of 10"}, {"ping", "ping", "of 10"}, {"loudness_sone", "loudness", "sone"},
                                     {"late_s", "ring-down", "s"}};

void put_big(const Stage& stage, ImFont* font, float size_px, ImVec2 at, ImU32 colour, const std::string& words) {
  static_cast<void>(stage);
  ImGui::GetWindowDrawList()->AddText(font, size_px, {std::round(at.x), std::round(at.y)}, colour, words.c_str());
}

}  // namespace

void RangeView::meter(Desk& desk, const Stage& stage, float width) {
  const auto reading = desk.hearing.ears->meter();
  const auto words = chain_words(reading, desk.hearing.peak_db);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float high = stage.px(46.0F);
  const auto place = [&](double level_db) {
    return at.x + width * static_cast<float>(std::clamp(1.0 - level_db / kMeterFloor_db, 0.0, 1.0));
  };
  list.AddRectFilled(at, {at.x + width, at.y + high}, stage.palette.well);
  list.AddRectFilled(at, {place(reading.peak_db), at.y + high}, faded(stage.palette.wax, 0.45F));
  list.AddRectFilled(at, {place(reading.rms_db), at.y + high}, stage.palette.wax);
  const float held = place(reading.held_peak_db);
  list.AddRectFilled({held - stage.px(2.0F), at.y}, {held + stage.px(2.0F), at.y + high}, stage.palette.text);
  for (int level = -80; level <= 0; level += 20) {
    const float x = place(level);
    list.AddLine({x, at.y + high}, {x, at.y + high + stage.px(5.0F)}, stage.palette.muted);
    const std::string digits = fmt::format("{}", level);
    const float wide = stage.fonts.small->CalcTextSizeA(stage.fonts.small->FontSize, 1e9F, 0.0F, digits.c_str()).x;
    list.AddText(stage.fonts.small, stage.fonts.small->FontSize,
                 {std::round(std::min(x - 0.5F * wide, at.x + width - wide)), at.y + high + stage.px(6.0F)}, stage.palette.muted,
                 digits.c_str());
  }
  ImGui::Dummy({width, high + stage.px(28.0F)});
  const bool armed = desk.hearing.ears->armed();
  const std::string state = desk.hearing.stopping ? "Keeping what was heard ..." : (armed ? "Listening" : "Paused");
  const std::string all = desk.hearing.trouble.empty() ? state + ". " + words.words : desk.hearing.trouble;
  const bool trouble = words.trouble || !desk.hearing.trouble.empty();
  line(stage, stage.fonts.title, trouble ? stage.palette.caution : stage.palette.text, fitted(stage.fonts.title, all, width));
  if (reading.clipped) {
    ImGui::SameLine();
    if (push(stage, "Seen##clip", {.kind = Push::quiet, .icon = Icon::tick})) desk.hearing.ears->wipe_clip_mark();
  }
}

void RangeView::figures(Desk& desk, const Stage& stage, ImVec2 size) {
  const Hearing& hearing = desk.hearing;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const auto last = desk.chosen_at();
  // A first look comes before the shot is kept and chosen: then nothing can have been said of it.
  const bool said = last && hearing.last && hearing.last->id == desk.chosen &&
                    numbers_shown(desk.book->block(*last), desk.book->shot(*last), desk.preferences.words_first);
  const bool hidden = !said && (desk.preferences.words_first || desk.book->conditions.blind);
  line(stage, stage.fonts.title, stage.palette.text,
       hearing.last ? fmt::format("{}: shot {}", hearing.setup, hearing.shots) : fmt::format("{}: waiting for the first shot", hearing.setup));
  if (!hearing.last) return;
  if (hidden) {
    gap(stage, 20.0F);
    paragraph(stage, stage.fonts.figure, stage.palette.text, "Your words first.");
    return;
  }
  const shot::Shot& shot = hearing.last->shot;
  const float top = at.y + stage.px(46.0F);
  const float row = std::max(stage.px(120.0F), 0.5F * (size.y - stage.px(120.0F)));
  const float big = std::min(row * 0.72F, stage.fonts.huge->FontSize);
  for (std::size_t k = 0; k < std::size(kBigFigures); ++k) {
    const BigFigure& figure = kBigFigures[k];
    const ImVec2 cell = {at.x + 0.5F * size.x * static_cast<float>(k % 2), top + row * static_cast<float>(k / 2)};
    const auto* number = shot::find_number(figure.id);
    std::string value = value_words(*number, shot);
    if (std::string_view(figure.id) == "late_s" && value != "-") value = plain_number(number->of(shot), 2);
    put_big(stage, stage.fonts.title, stage.fonts.title->FontSize, cell, stage.palette.muted, figure.word);
    put_big(stage, stage.fonts.huge, big, {cell.x, cell.y + stage.px(22.0F)}, stage.palette.text, value);
    const float wide = stage.fonts.huge->CalcTextSizeA(big, 1e9F, 0.0F, value.c_str()).x;
    put_big(stage, stage.fonts.title, stage.fonts.title->FontSize, {cell.x + wide + stage.px(10.0F), cell.y + 0.72F * big},
            stage.palette.muted, figure.unit);
  }
  ImGui::SetCursorScreenPos({at.x, top + 2.0F * row});
  for (const Finding& finding : shot.findings) {
    if (finding.severity == Severity::note) continue;
    paragraph(stage, stage.fonts.strong, stage.palette.caution, "! " + finding.sentence);
  }
  ImGui::Dummy({1.0F, 1.0F});
  stage.name_last("big figures");
}

}  // namespace ringfall::desk
