// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/shot_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

constexpr float kRoomForFour = 480.0F;
constexpr int kTailRounds = 12;
constexpr const char* kPictureNames[] = {"wave", "spectrogram", "decay", "tail spectrum"};

Tile tile_of(const char* id, const char* word, const logbook::KeptShot& shot, Quantity spoils, bool shown) {
  const shot::Number* number = shot::find_number(id);
  Tile tile{word, shown ? value_words(*number, shot.shot) : "?", std::string(number->unit), false};
  if (tile.unit == "points") tile.unit = "of 10";
  tile.doubtful = std::ranges::any_of(shot.shot.findings, [spoils](const Finding& finding) {
    return finding.severity == Severity::caution && std::ranges::find(finding.voids, spoils) != finding.voids.end();
  });
  return tile;
}

}  // namespace

void ShotView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const auto at = desk.chosen_at();
  if (!at) {
    const Sheet sheet(stage, "no shot", size);
    heading(stage, "No shot is chosen");
    paragraph(stage, stage.fonts.text, stage.palette.muted, "Press one in the line at the foot of the window, or in the Book.");
    return;
  }
  keys(desk);
  const float right = std::clamp(0.25F * size.x, stage.px(318.0F), stage.px(380.0F));
  const float left = size.x - right - ImGui::GetStyle().ItemSpacing.x;
  ImGui::BeginGroup();
  {
    const float high = stage.px(128.0F);
    {
      const Sheet sheet(stage, "numbers", {left, high});
      head(desk, stage, *at, left - stage.px(32.0F));
    }
    pictures(desk, stage, {left, size.y - high - ImGui::GetStyle().ItemSpacing.y});
  }
  ImGui::EndGroup();
  ImGui::SameLine();
  const Sheet sheet(stage, "about", {right, size.y});
  facts(desk, stage, *at, right - stage.px(42.0F));
}

void ShotView::keys(Desk& desk) {
  if (command(Key::p)) listen(desk, false);
  if (command(Key::l)) listen(desk, true);
  if (command(Key::n)) desk.step(1);
  if (command(Key::b)) desk.step(-1);
  for (std::size_t k = 0; k < kShotPictures; ++k) {
    if (command(static_cast<Key>('1' + static_cast<int>(k)))) alone_ = alone_ == k ? std::nullopt : std::optional(k);
  }
}

void ShotView::listen(Desk& desk, bool tail) {
  if (desk.playing()) {
    desk.stop_playing();
    return;
  }
  const ShotSheet* sheet = desk.shot.get();
  if (sheet == nullptr || sheet->id != desk.chosen) return;
  if (!tail) {
    desk.play(sheet->samples, sheet->sample_rate_hz);
    return;
  }
  const auto at = [sheet](double seconds) { return static_cast<std::ptrdiff_t>(seconds * sheet->sample_rate_hz); };
  const std::vector<float> once(sheet->samples.begin() + at(sheet->tail_begin_s), sheet->samples.begin() + at(sheet->tail_end_s));
  std::vector<float> looped;
  for (int round = 0; round < kTailRounds; ++round) looped.insert(looped.end(), once.begin(), once.end());
  desk.play(std::move(looped), sheet->sample_rate_hz);
}

void ShotView::head(Desk& desk, const Stage& stage, const ShotAt& at, float width) {
  const BookSheet& book = *desk.book;
  const auto& block = book.block(at);
  const auto& shot = book.shot(at);
  const ImVec2 place = ImGui::GetCursorScreenPos();
  draw_setup_mark(stage, *ImGui::GetWindowDrawList(), book.setup_index(block.setup),
                  {place.x + stage.px(8.0F), place.y + 0.5F * stage.fonts.strong->FontSize}, stage.px(6.0F));
  ImGui::SetCursorScreenPos({place.x + stage.px(22.0F), place.y});
  std::string title = fmt::format("Shot {}, {}, block {}", shot.id, block.setup, block.number);
  if (!shot.dropped.empty()) title += "   (left out: " + shot.dropped + ")";
  line(stage, stage.fonts.strong, stage.palette.text, fitted(stage.fonts.strong, title, width - stage.px(30.0F)));
  const bool shown = numbers_shown(desk.book->block(at), shot, desk.preferences.words_first);
  tiles(stage,
        {tile_of("hum", "hum", shot, Quantity::hum, shown), tile_of("ping", "ping", shot, Quantity::ping, shown),
         tile_of("exposure_db", "exposure, A", shot, Quantity::levels, shown),
         tile_of("loudness_sone", "loudness", shot, Quantity::loudness, shown),
         tile_of("late_s", "ring-down", shot, Quantity::ring_down, shown)},
        width);
}

void ShotView::pictures(Desk& desk, const Stage& stage, ImVec2 size) {
  const auto at_now = desk.chosen_at();
  if (!numbers_shown(desk.book->block(*at_now), desk.book->shot(*at_now), desk.preferences.words_first)) {
    const Sheet paper(stage, "hidden pictures", size);
    heading(stage, "Your words first");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              "Listen to the shot and say what you heard and felt. Its numbers and pictures are shown when your words are in.");
    return;
  }
  ImGui::BeginChild("pictures", size, false, kInside);
  const ShotSheet* sheet = desk.shot.get();
  // Four pictures in a small window could not be read.
  std::optional<std::size_t> alone = alone_;
  if (size.y < stage.px(kRoomForFour)) {
    if (alone_) small_ = *alone_;
    one_of(stage, "picture", {kPictureNames, kPictureNames + kShotPictures}, small_);
    alone_.reset();
    alone = small_;
    size = ImGui::GetContentRegionAvail();
  }
  const float between = stage.px(6.0F);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, {between, between});
  const ImVec2 cell = alone ? size : ImVec2(0.5F * (size.x - between), 0.5F * (size.y - between));
  for (std::size_t k = 0; k < kShotPictures; ++k) {
    if (alone && *alone != k) continue;
    if (!alone && k % 2 == 1) ImGui::SameLine();
    const ImVec2 at = ImGui::GetCursorPos();
    if (sheet == nullptr || sheet->id != desk.chosen) {
      const Sheet empty(stage, kPictureNames[k], cell);
      line(stage, stage.fonts.small, stage.palette.muted, "reading the shot ...");
      continue;
    }
    panes_[k].draw(stage, kPictureNames[k], sheet->figures[k], sheet->number, cell);
    if (k == static_cast<std::size_t>(ShotPicture::wave) && ImGui::GetIO().KeyCtrl && panes_[k].pressed_x()) {
      const double after_edge_s = 1e-3 * *panes_[k].pressed_x();  // the wave's axis is in ms after the edge
      const auto& block = desk.book->block(*at_now);
      if (ImGui::GetIO().KeyShift) desk.add_missed_shot(block.number, desk.book->shot(*at_now).shot.onset_s + after_edge_s, block.file);
      else desk.move_edge(sheet->id, after_edge_s);
    }
    if (alone && !alone_) continue;
    ImGui::SetItemAllowOverlap();
    ImGui::SetCursorPos({at.x + cell.x - stage.px(36.0F), at.y + cell.y - stage.px(36.0F)});
    const std::string name = fmt::format("##grow {}", kPictureNames[k]);
    const PushLook look{.kind = Push::quiet, .icon = alone_ ? Icon::shrink : Icon::grow, .width = stage.px(34.0F),
                        .tip = fmt::format("{} ({})", alone_ ? "all four again" : "this picture alone", k + 1)};
    if (push(stage, name.c_str(), look)) alone_ = alone_ ? std::nullopt : std::optional(k);
    ImGui::SetCursorPos({at.x, at.y});
    ImGui::Dummy(cell);
  }
  ImGui::PopStyleVar();
  ImGui::EndChild();
}

void ShotView::facts(Desk& desk, const Stage& stage, const ShotAt& at, float width) {
  const auto& shot = desk.book->shot(at);
  const float half = 0.5F * (width - ImGui::GetStyle().ItemSpacing.x);
  if (push(stage, "Play (p)", {.icon = desk.playing() ? Icon::stop : Icon::play, .width = half})) listen(desk, false);
  ImGui::SameLine();
  if (push(stage, "Tail (l)", {.icon = desk.playing() ? Icon::stop : Icon::loop, .width = half})) listen(desk, true);
  gap(stage, 6.0F);
  say_.draw(desk, stage, at, width);
  if (!numbers_shown(desk.book->block(at), shot, desk.preferences.words_first)) return;
  gap(stage, 8.0F);
  heading(stage, shot.shot.findings.empty() ? "Nothing spoils it" : "What to know of it");
  for (const Finding& finding : shot.shot.findings) {
    const bool grave = finding.severity != Severity::note;
    paragraph(stage, stage.fonts.small, grave ? stage.palette.caution : stage.palette.muted,
              fmt::format("{}{}", grave ? "! " : "", finding.sentence));
  }
  gap(stage, 8.0F);
  heading(stage, shot.shot.tones.empty() ? "No tone rings in its tail" : "Tones in its tail");
  for (const auto& tone : shot.shot.tones) {
    line(stage, stage.fonts.text, stage.palette.text,
         fmt::format("{}   {:.0f} dB   {}", frequency_text(tone.frequency_hz), tone.level_db, duration_text(tone.ring_time_s)));
  }
  if (shot.shot.impact_lag_s) {
    gap(stage, 4.0F);
    std::string flight = "Impact after " + duration_text(*shot.shot.impact_lag_s);
    if (shot.shot.arrow_speed_m_s) flight += ", arrow about " + speed_words(*shot.shot.arrow_speed_m_s, desk.preferences.archers_units);
    paragraph(stage, stage.fonts.small, stage.palette.muted, flight);
  }
}

}  // namespace ringfall::desk
