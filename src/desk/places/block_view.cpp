// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/block_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "base/text.h"
#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"

namespace ringfall::desk {
namespace {

std::optional<double> plain_seconds(std::string_view text) {
  double value = 0.0;
  const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = failed == std::errc{} && end == text.data() + text.size();
  return whole && value >= 0.0 && value < 1e6 ? std::optional(value) : std::nullopt;
}

}  // namespace

std::string clock_words(double time_s) {
  const double minutes = std::floor(time_s / 60.0);
  return fmt::format("{:.0f}:{:06.3f}", minutes, time_s - 60.0 * minutes);
}

std::optional<double> seconds_of(const std::string& text) {
  const std::size_t colon = text.find(':');
  if (colon == std::string::npos) return plain_seconds(text);
  const auto minutes = plain_seconds(std::string_view(text).substr(0, colon));
  const auto seconds = plain_seconds(std::string_view(text).substr(colon + 1));
  return minutes && seconds && *seconds < 60.0 ? std::optional(60.0 * *minutes + *seconds) : std::nullopt;
}

void BlockView::take_up(Desk& desk, const logbook::KeptBlock& block) {
  const std::string now = fmt::format("{} {}", block.number, desk.book->path);
  if (of_ == now) return;
  of_ = now;
  file_ = block.file;
  at_.clear();
  reason_.clear();
  desk.look_over(block, file_);
}

bool BlockView::draw(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, ImVec2 size) {
  take_up(desk, block);
  const Sheet paper(stage, "block", size);
  const float width = size.x - stage.px(40.0F);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  draw_setup_mark(stage, *ImGui::GetWindowDrawList(), desk.book->setup_index(block.setup), {at.x + stage.px(8.0F), at.y + stage.px(13.0F)}, stage.px(6.0F));
  ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y});
  heading(stage, fmt::format("Block {}, {}", block.number, block.setup));
  const bool done = push(stage, "Back to the shots", {.kind = Push::quiet, .icon = Icon::undo});
  std::string facts = counted(block.shots.size(), "shot");
  if (!block.note.empty()) facts += "; " + block.note;
  if (const auto said = said_words(block.comments); !said.empty()) facts += "; said of all: " + said;
  paragraph(stage, stage.fonts.small, stage.palette.muted, facts, width);
  for (const Finding& finding : block.findings) {
    paragraph(stage, stage.fonts.small, finding.severity == Severity::note ? stage.palette.muted : stage.palette.caution, finding.sentence, width);
  }
  set_up(desk, stage, block);
  const float below = stage.px(block.dropped.empty() ? 230.0F : 250.0F);
  const float room = size.y - ImGui::GetCursorPosY() - below;
  picture(desk, stage, block, {width, std::clamp(room, stage.px(150.0F), stage.px(420.0F))});
  missed(desk, stage, block, width);
  gap(stage, 8.0F);
  leave_out(desk, stage, block, width);
  if (done) of_.clear();
  return done;
}

void BlockView::set_up(Desk& desk, const Stage& stage, const logbook::KeptBlock& block) {
  if (block.bow != desk.book->conditions.bow) return;  // the set-ups listed are those of the last session's bow
  std::vector<std::string> names;
  for (const auto& setup : desk.book->setups) names.push_back(setup.name);
  const auto now = std::ranges::find(names, block.setup);
  auto chosen = static_cast<std::size_t>(now - names.begin());
  line(stage, stage.fonts.small, stage.palette.muted, "Shot with (press another when the wrong one was named)");
  if (one_of(stage, "block setup", names, chosen)) desk.move_block(block.number, names[chosen]);
}

void BlockView::picture(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, ImVec2 size) {
  const bool shown = std::ranges::all_of(block.shots, [&](const auto& shot) { return numbers_shown(block, shot, desk.preferences.words_first); });
  if (!shown) {
    paragraph(stage, stage.fonts.text, stage.palette.muted, "Words first: the picture of this recording would give its numbers away.", size.x);
    return;
  }
  const Overview* overview = desk.overview.get();
  if (overview == nullptr || overview->block != block.number) {
    paragraph(stage, stage.fonts.text, stage.palette.muted, desk.slow.busy() ? "Reading the recording ..." : "The recording was not read.", size.x);
    return;
  }
  if (!overview->trouble.empty()) {
    paragraph(stage, stage.fonts.text, stage.palette.caution, overview->trouble, size.x);
    paragraph(stage, stage.fonts.small, stage.palette.muted,
              "Shots that were heard live are kept one by one; a recording that was moved can be named below.", size.x);
    return;
  }
  if (drawn_ != overview->number || revision_ != desk.revision) {
    figure_ = overview_figure(*overview, block.shots);
    if (drawn_ == overview->number) pane_.lay_out_anew();
    drawn_ = overview->number;
    revision_ = desk.revision;
  }
  pane_.draw(stage, "recording picture", figure_, overview->number, size);
  if (const auto pressed = pane_.pressed_x()) at_ = clock_words(steepest_near(*overview, *pressed));
}

void BlockView::missed(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width) {
  line(stage, stage.fonts.strong, stage.palette.text, "Was a shot missed?");
  paragraph(stage, stage.fonts.small, stage.palette.muted,
            "Press its loud edge in the picture (the wheel looks closer), or write when it was. It is measured and kept as your correction.", width);
  const float button = stage.px(220.0F);
  const float time = stage.px(130.0F);
  field(stage, "missed at", "1:23.45", at_, time);
  ImGui::SameLine();
  bool entered = false;
  field(stage, "block recording", "its recording", file_, std::max(stage.px(120.0F), width - time - button - stage.px(28.0F)), &entered);
  if (entered) desk.look_over(block, file_);
  ImGui::SameLine();
  const auto at_s = seconds_of(at_);
  if (push(stage, "Keep the missed shot", {.kind = Push::main, .icon = Icon::plus, .width = button, .enabled = at_s.has_value() && !file_.empty()})) {
    desk.add_missed_shot(block.number, *at_s, file_);
    at_.clear();
  }
}

void BlockView::leave_out(Desk& desk, const Stage& stage, const logbook::KeptBlock& block, float width) {
  if (!block.dropped.empty()) {
    paragraph(stage, stage.fonts.text, stage.palette.caution, "Left out: " + block.dropped, width);
    if (push(stage, "Take the block in again", {.icon = Icon::undo})) desk.drop_block(block.number, {});
    return;
  }
  const float button = stage.px(220.0F);
  field(stage, "block reason", "why the whole block should not count", reason_, width - button - stage.px(10.0F));
  ImGui::SameLine();
  if (push(stage, "Leave the block out", {.icon = Icon::cross, .width = button, .enabled = !reason_.empty()})) {
    desk.drop_block(block.number, reason_);
    reason_.clear();
  }
}

}  // namespace ringfall::desk
