// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/book_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "base/local_time.h"
#include "base/text.h"
#include "desk/parts/parts.h"
#include "desk/figures/setup_mark.h"
#include "desk/parts/words.h"

namespace ringfall::desk {

void BookView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  if (!desk.book) {
    welcome_.draw(desk, stage, size);
    return;
  }
  if (of_ != desk.book->path) {
    of_ = desk.book->path;
    new_session_ = false;
  }
  if (desk.dropped_sound) {
    add_.offer(*desk.dropped_sound);
    desk.dropped_sound.reset();
    desk.adding = true;
  }
  if (desk.adding) block_.forget();  // the one recording at a glance is that of the recording added
  const float left = std::clamp(0.27F * size.x, stage.px(270.0F), stage.px(360.0F));
  evening(desk, stage, {left, size.y});
  ImGui::SameLine();
  const ImVec2 rest = {size.x - left - ImGui::GetStyle().ItemSpacing.x, size.y};
  if (desk.adding) desk.adding = !add_.draw(desk, stage, rest);
  else if (new_session_) new_session_ = !session_.draw(desk, stage, rest);
  else {
    const auto block = std::ranges::find_if(desk.book->blocks, [&](const auto& own) { return own.number == desk.looked_into; });
    if (block == desk.book->blocks.end()) shots(desk, stage, rest);
    else if (block_.draw(desk, stage, *block, rest)) desk.looked_into.reset();
  }
}

void BookView::evening(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet sheet(stage, "evening", size);
  const BookSheet& book = *desk.book;
  const bool archers = desk.preferences.archers_units;
  const float width = size.x - stage.px(32.0F);
  paragraph(stage, stage.fonts.title, stage.palette.text, book.conditions.bow);
  std::string facts = local_time_text(book.conditions.started_at);
  if (!book.conditions.place.empty()) facts += "\n" + book.conditions.place;
  if (book.conditions.distance_m) facts += "\n" + distance_words(*book.conditions.distance_m, archers) + " to the target";
  if (book.conditions.temperature_c) facts += ", air " + temperature_words(*book.conditions.temperature_c, archers);
  if (!book.conditions.chain.empty()) facts += "\n" + book.conditions.chain;
  facts += book.conditions.full_scale_db_spl
               ? fmt::format("\ncalibrated: full scale is {:.1f} dB SPL", *book.conditions.full_scale_db_spl)
               : "\nnot calibrated: levels are re full scale";
  paragraph(stage, stage.fonts.small, stage.palette.muted, facts);
  gap(stage, 8.0F);
  if (push(stage, "Add a recording", {.kind = Push::main, .icon = Icon::plus, .width = width})) {
    desk.adding = true;
    new_session_ = false;
  }
  if (push(stage, "New session", {.icon = Icon::plus, .width = width})) {
    session_.begin(book.conditions, archers);
    new_session_ = true;
    desk.adding = false;
  }
  if (book.older > 0 && push(stage, "Measure again", {.icon = Icon::loop, .width = width})) desk.remeasure_older();
  if (book.older > 0) {
    paragraph(stage, stage.fonts.small, stage.palette.muted,
              counted(book.older, "shot") + " measured by another version of Ringfall: numbers of two versions may differ.");
  }
  gap(stage, 8.0F);
  setups(desk, stage);
  gap(stage, 8.0F);
  if (push(stage, "Close the logbook", {.kind = Push::quiet, .icon = Icon::cross})) desk.close();
}

void BookView::setups(Desk& desk, const Stage& stage) {
  heading(stage, "Set-ups");
  const BookSheet& book = *desk.book;
  for (std::size_t k = 0; k < book.setups.size(); ++k) {
    const auto& setup = book.setups[k];
    gap(stage, 2.0F);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_setup_mark(stage, *ImGui::GetWindowDrawList(), k, {at.x + stage.px(8.0F), at.y + stage.px(11.0F)}, stage.px(6.0F));
    ImGui::SetCursorScreenPos({at.x + stage.px(24.0F), at.y});
    ImGui::BeginGroup();
    line(stage, stage.fonts.strong, stage.palette.text, setup.name + (setup.baseline ? "  (baseline)" : ""));
    std::string more = setup.changed;
    if (setup.added_mass_kg) more += (more.empty() ? "" : ", ") + mass_words(*setup.added_mass_kg, desk.preferences.archers_units) + " more";
    if (!more.empty()) paragraph(stage, stage.fonts.small, stage.palette.muted, more);
    ImGui::EndGroup();
  }
  gap(stage, 6.0F);
  if (!new_setup_) {
    if (push(stage, "New set-up", {.icon = Icon::plus})) new_setup_ = true;
    return;
  }
  const float width = ImGui::GetContentRegionAvail().x;
  bool entered = false;
  field(stage, "set-up name", "its name: felt cuff", setup_name_, width);
  field(stage, "set-up differs", "what differs from the baseline", setup_changed_, width, &entered);
  const bool keep = push(stage, "Keep the set-up", {.kind = Push::main, .icon = Icon::tick, .enabled = !setup_name_.empty()});
  ImGui::SameLine();
  const bool leave = push(stage, "Not now##setup", {.kind = Push::quiet});
  if ((keep || entered) && !setup_name_.empty()) {
    logbook::SetUp setup;
    setup.name = setup_name_;
    setup.changed = setup_changed_;
    desk.add_setup(setup);
  }
  if (keep || leave || entered) {
    new_setup_ = false;
    setup_name_.clear();
    setup_changed_.clear();
  }
}

}  // namespace ringfall::desk
