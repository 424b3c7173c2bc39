// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/parts/parts.h"
#include "desk/places/range_view.h"
#include "desk/sheets/running_sheet.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

constexpr double kMeterFloor_db = -90.0;

// Figures of 53 px stand 14 mm high on a usual screen (96 dots an inch): 16 minutes of arc at 3 m, the least of ISO 9241-303 (from
// memory). Digits are 0.72 of their type's size high.
constexpr float kReadable = 74.0F;
constexpr float kLeastDots = 185.0F;
constexpr float kDotsWide = 310.0F;
constexpr std::size_t kMostEarlier = 4;

void put_big(ImFont* font, float size_px, ImVec2 at, ImU32 colour, const std::string& words) {
  ImGui::GetWindowDrawList()->AddText(font, size_px, {std::round(at.x), std::round(at.y)}, colour, words.c_str());
}

float wide_at(ImFont* font, float size_px, const std::string& words) { return font->CalcTextSizeA(size_px, 1e9F, 0.0F, words.c_str()).x; }

/// Type so large that each word of a row fits into its column.
float row_size(const Stage& stage, const BigWords& words, float column, float most) {
  float size = most;
  for (const auto& word : words) size = std::min(size, most * (column - stage.px(20.0F)) / std::max(1.0F, wide_at(stage.fonts.huge, most, word)));
  return size;
}

}  // namespace

void RangeView::meter(Desk& desk, const Stage& stage, float width) {
  const auto reading = desk.hearing.ears->meter();
  const auto words = chain_words(reading, desk.hearing.peak_db);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float high = stage.px(34.0F);
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
  const float begin = ImGui::GetCursorPosY();
  if (hearing.block != 0) desk.need_running(hearing.block);
  const auto last = desk.chosen_at();
  // The newest shot, kept and chosen, whose numbers may be seen. A first look comes before that: nothing can have been said of it.
  const bool said = last && hearing.last && hearing.last->id == desk.chosen &&
                    numbers_shown(desk.book->block(*last), desk.book->shot(*last), desk.preferences.words_first);
  const bool hidden = !said && (desk.preferences.words_first || desk.book->conditions.blind);
  line(stage, stage.fonts.title, stage.palette.text,
       hearing.last ? fmt::format("{}: shot {}", hearing.setup, hearing.shots) : fmt::format("{}: waiting for the first shot", hearing.setup));
  if (hearing.last && hidden) {
    gap(stage, 12.0F);
    paragraph(stage, stage.fonts.figure, stage.palette.text, "Your words first.");
  } else if (hearing.last) {
    newest(stage, hearing.last->shot, size.x);
    for (const Finding& finding : hearing.last->shot.findings) {
      if (finding.severity == Severity::note) continue;
      paragraph(stage, stage.fonts.strong, stage.palette.caution, "! " + finding.sentence, size.x);
    }
  }
  if (!desk.running || desk.running->block != hearing.block) return;
  const auto left = [&] { return size.y - (ImGui::GetCursorPosY() - begin); };
  earlier(desk, stage, {size.x, left()});
  pictures(desk, stage, {size.x, left()}, said);
}

void RangeView::newest(const Stage& stage, const shot::Shot& shot, float width) {
  const BigWords words = big_words(shot);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float column = width / static_cast<float>(words.size());
  const float big = row_size(stage, words, column, stage.fonts.huge->FontSize);
  const float head = stage.px(32.0F);
  for (std::size_t k = 0; k < words.size(); ++k) {
    const float x = at.x + column * static_cast<float>(k);
    ImFont* title = stage.fonts.title;
    put_big(title, title->FontSize, {x, at.y}, stage.palette.text, kBigFigures[k].word);
    const float after = x + wide_at(title, title->FontSize, kBigFigures[k].word) + stage.px(8.0F);
    put_big(stage.fonts.text, stage.fonts.text->FontSize, {after, at.y + title->Ascent - stage.fonts.text->Ascent}, stage.palette.muted, kBigFigures[k].unit);
    put_big(stage.fonts.huge, big, {x, at.y + head - 0.1F * big}, stage.palette.text, words[k]);
  }
  ImGui::Dummy({width, head + 0.86F * big});
  stage.name_last("big figures");
}

void RangeView::earlier(const Desk& desk, const Stage& stage, ImVec2 size) {
  std::vector<const RunningSheet::Row*> rows;
  for (auto row = desk.running->rows.rbegin(); row != desk.running->rows.rend(); ++row) {
    // The newest one stands above them; until it is kept it is none of these.
    if (!(desk.hearing.last && desk.hearing.last->id == row->shot)) rows.push_back(&*row);
  }
  const float high = stage.px(0.80F * kReadable + 17.0F);
  // Where there is no room for both, what can be read from three metres goes first.
  const float beside_pictures = (size.y - stage.px(kLeastDots + 10.0F)) / high;
  const float room = beside_pictures >= 1.0F ? beside_pictures : size.y / high;
  const auto fit = static_cast<std::size_t>(std::clamp(room, 0.0F, static_cast<float>(kMostEarlier)));
  const float column = size.x / static_cast<float>(kBigFigures.size());
  for (std::size_t k = 0; k < std::min(fit, rows.size()); ++k) {
    const RunningSheet::Row& row = *rows[k];
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddLine(at, {at.x + size.x, at.y}, stage.palette.hem);
    const std::string name = fmt::format("shot {}{}", row.shot, row.dropped.empty() ? "" : ", left out: " + row.dropped);
    put_big(stage.fonts.small, stage.fonts.small->FontSize, {at.x, at.y + stage.px(2.0F)}, stage.palette.muted, name);
    const float big = row_size(stage, row.words, column, stage.px(kReadable));
    for (std::size_t n = 0; n < row.words.size(); ++n) {
      // A "?" is not among the large type's signs.
      ImFont* font = row.words[n] == "?" ? stage.fonts.figure : stage.fonts.huge;
      put_big(font, big, {at.x + column * static_cast<float>(n), at.y + stage.px(17.0F) - 0.1F * big}, stage.palette.muted, row.words[n]);
    }
    ImGui::Dummy({size.x, high - ImGui::GetStyle().ItemSpacing.y});
    stage.name_last(fmt::format("earlier shot {}", row.shot));
  }
}

void RangeView::pictures(const Desk& desk, const Stage& stage, ImVec2 size, bool of_shot) {
  const float between = stage.px(6.0F);
  if (size.y < stage.px(kLeastDots - 45.0F)) return;
  const RunningSheet& running = *desk.running;
  const ShotSheet* shot = of_shot && desk.shot && desk.shot->id == desk.chosen ? desk.shot.get() : nullptr;
  std::size_t most = static_cast<std::size_t>(std::clamp(size.x / stage.px(kDotsWide), 1.0F, 3.0F));
  const std::size_t there = (running.dots ? 1 : 0) + (shot != nullptr ? 2 : 0);
  most = std::min(most, size.y < stage.px(kLeastDots) ? 1 : there);  // the dots alone can be flatter
  if (most == 0 || there == 0) return;
  const ImVec2 cell = {(size.x - between * static_cast<float>(most - 1)) / static_cast<float>(most), size.y - stage.px(4.0F)};
  std::size_t drawn = 0;
  const auto draw = [&](FigurePane& pane, const char* name, const plot::Figure& figure, std::uint64_t number) {
    if (drawn == most) return;
    if (drawn++ > 0) ImGui::SameLine(0.0F, between);
    pane.draw(stage, name, figure, number, cell);
  };
  if (running.dots) draw(dots_pane_, "running dots", *running.dots, running.number);
  if (shot == nullptr) return;
  draw(wave_pane_, "running wave", shot->figures[static_cast<std::size_t>(ShotPicture::wave)], shot->number);
  draw(tail_pane_, "running tail", shot->figures[static_cast<std::size_t>(ShotPicture::tail)], shot->number);
}

}  // namespace ringfall::desk
