// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/compare_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "report/sentences.h"

namespace ringfall::desk {
namespace {

/// The numbers worth asking about first; the others are in the report.
constexpr const char* kQuestions[] = {"hum", "ping", "exposure_db", "loudness_sone", "peak_db", "late_s", "sharpness_acum"};

}  // namespace

void CompareView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const CompareSheet* sheet = desk.comparison.get();
  if (sheet == nullptr) {
    const Sheet paper(stage, "no comparison", size);
    heading(stage, "Nothing to compare yet");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              desk.compare_trouble.empty() ? "Listening to the shots ..." : desk.compare_trouble);
    return;
  }
  const float left = std::clamp(0.36F * size.x, stage.px(330.0F), stage.px(560.0F));
  answer(desk, stage, {left, size.y});
  ImGui::SameLine();
  figures(desk, stage, {size.x - left - ImGui::GetStyle().ItemSpacing.x, size.y});
}

void CompareView::question(Desk& desk, const Stage& stage) {
  line(stage, stage.fonts.small, stage.palette.muted, "The question is about");
  std::vector<std::string> words;
  std::size_t chosen = 0;
  for (std::size_t k = 0; k < std::size(kQuestions); ++k) {
    words.emplace_back(shot::find_number(kQuestions[k])->label);
    if (desk.preferences.main_number == kQuestions[k]) chosen = k;
  }
  if (one_of(stage, "question", words, chosen)) {
    desk.preferences.main_number = kQuestions[chosen];
    desk.compare_again();
  }
}

void CompareView::answer(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet paper(stage, "answer", size);
  const CompareSheet& sheet = *desk.comparison;
  question(desk, stage);
  gap(stage, 6.0F);
  for (std::size_t k = 0; k < sheet.report.verdicts.size(); ++k) {
    const auto& against = sheet.report.source.comparison.against;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (k < against.size()) {
      draw_setup_mark(stage, *ImGui::GetWindowDrawList(), k + 1, {at.x + stage.px(8.0F), at.y + stage.px(10.0F)}, stage.px(6.0F));
    }
    ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y});
    paragraph(stage, stage.fonts.strong, stage.palette.text, sheet.report.verdicts[k]);
    gap(stage, 4.0F);
  }
  if (!sheet.with_sound && desk.compare_stopped) {
    paragraph(stage, stage.fonts.small, stage.palette.muted, "A first look from each shot's own numbers: listening to the shots was stopped.");
    if (push(stage, "Go on listening to them", {.icon = Icon::ear})) desk.compare_again();
  } else if (!sheet.with_sound) {
    paragraph(stage, stage.fonts.small, stage.palette.muted,
              "A first look from each shot's own numbers; the tones are being sought in all shots of a set-up together.");
  }
  if (!sheet.report.sound_sentences.empty()) {
    gap(stage, 6.0F);
    heading(stage, "What changed in the sound");
    for (const auto& sentence : sheet.report.sound_sentences) {
      paragraph(stage, stage.fonts.text, stage.palette.text, sentence);
      gap(stage, 3.0F);
    }
  }
  bool said = false;
  for (const auto& agreement : sheet.report.agreements) {
    if (!said) {
      gap(stage, 6.0F);
      heading(stage, "Words against numbers");
    }
    said = true;
    paragraph(stage, stage.fonts.text, stage.palette.text, agreement.sentence);
    gap(stage, 3.0F);
  }
  if (!sheet.report.doubts.empty()) {
    gap(stage, 6.0F);
    heading(stage, "What to doubt");
    for (const auto& doubt : sheet.report.doubts) {
      paragraph(stage, stage.fonts.small, stage.palette.muted, doubt);
      gap(stage, 2.0F);
    }
  }
}

void CompareView::figures(Desk& desk, const Stage& stage, ImVec2 size) {
  ImGui::BeginChild("figures", size, false, kInside);
  const CompareSheet& sheet = *desk.comparison;
  std::vector<std::string> names;
  for (const auto& named : sheet.figures) names.push_back(named.name);
  shown_ = std::min(shown_, names.size() - 1);
  one_of(stage, "figure", names, shown_);
  while (panes_.size() < sheet.figures.size()) panes_.emplace_back();
  const ImVec2 room = ImGui::GetContentRegionAvail();
  panes_[shown_].draw(stage, "comparison picture", sheet.figures[shown_].figure, sheet.number, room);
  ImGui::EndChild();
}

}  // namespace ringfall::desk
