// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/plan_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "compare/plan_advice.h"
#include "desk/parts/parts.h"
#include "desk/figures/placing_sketch.h"
#include "desk/figures/setup_mark.h"

namespace ringfall::desk {
namespace {

constexpr float kLeastPlan = 210.0F;

std::optional<double> positive(const std::string& text) {
  double value = 0.0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (failed != std::errc{} || end != text.data() + text.size() || !(value > 0.0) || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace

void PlanView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const float left = 0.5F * (size.x - ImGui::GetStyle().ItemSpacing.x);
  {
    const Sheet paper(stage, "plan", {left, size.y});
    shots_needed(desk, stage, left - stage.px(40.0F));
    gap(stage, 14.0F);
    order(desk, stage, left - stage.px(40.0F));
    gap(stage, 10.0F);
    if (const ImVec2 room = ImGui::GetContentRegionAvail(); room.y >= stage.px(kLeastPlan)) {
      heading(stage, "Where the microphone stands");
      gap(stage, 4.0F);
      draw_placing_sketch(stage, {std::min(room.x, stage.px(640.0F)), std::min(room.y - stage.px(40.0F), stage.px(280.0F))});
    }
  }
  ImGui::SameLine();
  const Sheet paper(stage, "checklist", {left, size.y});
  checklist(stage);
}

void PlanView::look_back(const Desk& desk, const shot::Number& number) {
  const CompareSheet* sheet = desk.comparison.get();
  const std::uint64_t now = sheet == nullptr ? 0 : sheet->number;
  if (now == seen_in_ && seen_number_ == number.id) return;
  seen_in_ = now;
  seen_number_ = number.id;
  seen_ = sheet == nullptr ? std::nullopt : compare::scatter_seen(sheet->report.source.session, compare::measure_of(number));
}

void PlanView::shots_needed(Desk& desk, const Stage& stage, float width) {
  const shot::Number* number = shot::find_number(desk.preferences.main_number);
  look_back(desk, *number);
  heading(stage, "How many shots does it take?");
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            fmt::format("The question is about {} (choose it in Compare).{}", number->label,
                        seen_ ? fmt::format(" So far it scatters by {:.{}f} {} from shot to shot and by {:.{}f} from block to block.",
                                            seen_->within_block, number->decimals + 1, number->unit, seen_->between_blocks,
                                            number->decimals + 1)
                              : std::string(" How much it scatters is not known yet: a usual figure is one or two dB, or half a point.")));
  const float half = 0.5F * (width - stage.px(8.0F));
  const ImVec2 asked = ImGui::GetCursorPos();
  ImGui::BeginGroup();
  line(stage, stage.fonts.small, stage.palette.muted, fmt::format("A difference worth finding, {}", number->unit));
  field(stage, "worth", number->noticeable > 0.0 ? fmt::format("{:g} (noticeable)", number->noticeable).c_str() : "1", worth_, half);
  ImGui::EndGroup();
  const ImVec2 after = ImGui::GetCursorPos();
  ImGui::SetCursorPos({asked.x + half + stage.px(8.0F), asked.y});
  ImGui::BeginGroup();
  line(stage, stage.fonts.small, stage.palette.muted, "Scatter from shot to shot");
  field(stage, "spread", seen_ ? "as so far" : "0.5", spread_, half);
  ImGui::EndGroup();
  ImGui::SetCursorPos(after);
  compare::PlanQuestion question;
  for (const auto& setup : desk.book->setups) question.setups.push_back(setup.name);
  const auto worth = worth_.empty() && number->noticeable > 0.0 ? std::optional(number->noticeable) : positive(worth_);
  const auto stated = positive(spread_);
  if (seen_) question.scatter = *seen_;
  if (stated) question.scatter = {*stated, 0.0, 0, 0};
  if (question.setups.size() < 2) {
    plan_.reset();
    paragraph(stage, stage.fonts.text, stage.palette.caution, "Make two set-ups or more in the Book (F1) first.");
    return;
  }
  if (!worth || !(question.scatter.within_block > 0.0)) {
    plan_.reset();
    paragraph(stage, stage.fonts.text, stage.palette.caution, "Give both as numbers above zero.");
    return;
  }
  question.wanted = *worth;
  // Searching takes some milliseconds: not in every frame.
  if (!plan_ || question != asked_) {
    plan_ = compare::plan_shooting(question);
    asked_ = std::move(question);
  }
  gap(stage, 4.0F);
  const std::string headline = fmt::format("{} shots with each set-up, {} arrows in all", plan_->shots_per_setup, plan_->arrows);
  paragraph(stage, stage.fonts.title, plan_->too_many ? stage.palette.caution : stage.palette.text, headline);
  stage.name_last(headline);
  paragraph(stage, stage.fonts.text, stage.palette.muted,
            fmt::format("{} blocks of {} each, warm-up counted in. A true difference of {:g} {} is found in {:.0f} of 100 such evenings; the "
                        "interval will be about +-{:.{}f}.{}",
                        plan_->blocks_per_setup, plan_->shots_per_block, *worth, number->unit, 100.0 * plan_->power, plan_->half_width,
                        number->decimals + 1, !plan_->reaches   ? " No plan finds it 80 times in 100: ask for a larger difference."
                        : plan_->too_many ? " That is more than an evening: take several, or ask for a larger difference."
                                          : ""));
}

void PlanView::order(Desk& desk, const Stage& stage, float width) {
  if (!plan_) return;
  const auto& setups = desk.book->setups;
  heading(stage, "In this order");
  gap(stage, 2.0F);
  const ImVec2 begin = ImGui::GetCursorScreenPos();
  float x = 0.0F;
  float y = 0.0F;
  ImDrawList& list = *ImGui::GetWindowDrawList();
  for (std::size_t k = 0; k < plan_->order.size(); ++k) {
    const compare::PlannedBlock& block = plan_->order[k];
    ImFont* font = stage.fonts.text;
    const std::string words = fmt::format("{}.  {}: {} shots", k + 1, setups[block.setup].name, block.shots);
    const float wide = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.c_str()).x + stage.px(44.0F);
    if (x > 0.0F && x + wide > width) {
      x = 0.0F;
      y += stage.px(28.0F);
    }
    draw_setup_mark(stage, list, block.setup, {begin.x + x + stage.px(8.0F), begin.y + y + stage.px(12.0F)}, stage.px(5.0F));
    list.AddText(font, font->FontSize, {begin.x + x + stage.px(20.0F), begin.y + y + stage.px(2.0F)}, stage.palette.text, words.c_str());
    x += wide;
  }
  ImGui::Dummy({width, y + stage.px(32.0F)});
  paragraph(stage, stage.fonts.small, stage.palette.muted,
            "Forth and back, so that what drifts over the evening (arms, air, string) falls on all set-ups alike.");
}

void PlanView::checklist(const Stage& stage) {
  heading(stage, "Safety first");
  for (const auto& caution : compare::shooting_cautions()) {
    paragraph(stage, stage.fonts.text, stage.palette.text, caution);
    gap(stage, 2.0F);
  }
  gap(stage, 8.0F);
  heading(stage, "Where the microphone goes");
  for (const auto& advice : compare::microphone_placing()) {
    paragraph(stage, stage.fonts.text, stage.palette.muted, advice);
    gap(stage, 2.0F);
  }
  gap(stage, 8.0F);
  heading(stage, "To tick off");
  const auto points = compare::checklist();
  ticked_.resize(points.size(), false);
  for (std::size_t k = 0; k < points.size(); ++k) {
    bool on = ticked_[k];
    const ImVec2 at = ImGui::GetCursorPos();
    on_off(stage, fmt::format("##check {}", k).c_str(), on);
    ticked_[k] = on;
    ImGui::SetCursorPos({at.x + stage.px(32.0F), at.y + stage.px(3.0F)});
    paragraph(stage, stage.fonts.text, on ? stage.palette.muted : stage.palette.text, points[k]);
    gap(stage, 4.0F);
  }
}

}  // namespace ringfall::desk
