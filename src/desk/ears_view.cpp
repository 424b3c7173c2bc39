// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/ears_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/keys.h"
#include "desk/parts.h"
#include "desk/setup_mark.h"

namespace ringfall::desk {

void EarsView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const CompareSheet* sheet = desk.comparison.get();
  if (sheet == nullptr || sheet->excerpts.empty()) {
    const Sheet paper(stage, "no ears", size);
    heading(stage, "Nothing to listen to yet");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              !desk.compare_trouble.empty() ? desk.compare_trouble : desk.compare_stopped ? "Getting the shots ready was stopped." : "Getting the shots ready ...");
    if (desk.compare_stopped && push(stage, "Go on##ears", {.icon = Icon::ear})) desk.compare_again();
    return;
  }
  const auto& setups = sheet->report.source.comparison.setups;
  const float left = 0.5F * (size.x - ImGui::GetStyle().ItemSpacing.x);
  {
    const Sheet paper(stage, "rows", {left, size.y});
    heading(stage, "Listen");
    paragraph(stage, stage.fonts.text, stage.palette.muted,
              fmt::format("All at one gain ({:+.1f} dB), so a quieter set-up stays quieter. Headphones are best.",
                          sheet->report.source.clip_gain_db));
    gap(stage, 6.0F);
    for (std::size_t k = 0; k < setups.size(); ++k) setup_row(desk, stage, setups[k], k);
    gap(stage, 8.0F);
    if (push(stage, "Silence", {.icon = Icon::stop, .enabled = desk.playing()})) desk.stop_playing();
  }
  ImGui::SameLine();
  const Sheet paper(stage, "test", {left, size.y});
  test(desk, stage, left - stage.px(32.0F));
}

void EarsView::sound_of(Desk& desk, const std::string& setup, std::size_t which) {
  std::vector<const Excerpt*> own;
  for (const Excerpt& excerpt : desk.comparison->excerpts) {
    if (excerpt.setup == setup) own.push_back(&excerpt);
  }
  if (own.empty()) return;
  const Excerpt& excerpt = *own[which % own.size()];
  desk.play(excerpt.samples, excerpt.sample_rate_hz);
}

void EarsView::setup_row(Desk& desk, const Stage& stage, const std::string& setup, std::size_t index) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  draw_setup_mark(stage, *ImGui::GetWindowDrawList(), index, {at.x + stage.px(8.0F), at.y + stage.px(12.0F)}, stage.px(6.0F));
  ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y});
  line(stage, stage.fonts.strong, stage.palette.text, setup);
  std::size_t which = 0;
  for (const Excerpt& excerpt : desk.comparison->excerpts) {
    if (excerpt.setup != setup) continue;
    if (which > 0) ImGui::SameLine();
    if (push(stage, fmt::format("shot {}##hear", excerpt.shot).c_str(), {.icon = Icon::play})) sound_of(desk, setup, which);
    ++which;
  }
  gap(stage, 8.0F);
}

void EarsView::test(Desk& desk, const Stage& stage, float width) {
  const auto& setups = desk.comparison->report.source.comparison.setups;
  heading(stage, "Can you tell them apart?");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            "X is one of the two, drawn anew each round, and not always the same shot. Say which it is; Ringfall counts.");
  gap(stage, 6.0F);
  first_ = std::min(first_, setups.size() - 1);
  second_ = std::min(second_, setups.size() - 1);
  line(stage, stage.fonts.small, stage.palette.muted, "A");
  bool other = one_of(stage, "first", setups, first_);
  line(stage, stage.fonts.small, stage.palette.muted, "B");
  other = one_of(stage, "second", setups, second_) || other;
  if (other) blind_.start_over();
  gap(stage, 10.0F);
  if (first_ == second_) {
    paragraph(stage, stage.fonts.text, stage.palette.caution, "Choose two different ones.");
    return;
  }
  const float third = (width - 2.0F * ImGui::GetStyle().ItemSpacing.x) / 3.0F;
  const PushLook play{.kind = Push::plain, .icon = Icon::play, .width = third};
  if (push(stage, "A (a)", play) || command(Key::a)) sound_of(desk, setups[first_], blind_.pick() / 3);
  ImGui::SameLine();
  PushLook hidden = play;
  hidden.kind = Push::main;
  if (push(stage, "X (x)", hidden) || command(Key::x)) {
    sound_of(desk, setups[blind_.hidden_is_second() ? second_ : first_], blind_.pick());
  }
  ImGui::SameLine();
  if (push(stage, "B (b)", play) || command(Key::b)) sound_of(desk, setups[second_], blind_.pick() / 7);
  gap(stage, 6.0F);
  const float half = 0.5F * (width - ImGui::GetStyle().ItemSpacing.x);
  if (push(stage, "X is A", {.icon = Icon::ear, .width = half})) blind_.answer(false);
  ImGui::SameLine();
  if (push(stage, "X is B", {.icon = Icon::ear, .width = half})) blind_.answer(true);
  gap(stage, 10.0F);
  paragraph(stage, stage.fonts.title, stage.palette.text, blind_.score());
  stage.name_last(blind_.score());
  if (blind_.rounds() > 0 && push(stage, "Start over", {.kind = Push::quiet, .icon = Icon::undo})) blind_.start_over();
}

}  // namespace ringfall::desk
