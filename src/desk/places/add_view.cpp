// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/add_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "base/text.h"
#include "desk/parts/parts.h"

namespace ringfall::desk {

bool AddView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  const Sheet sheet(stage, "add", size);
  heading(stage, "Add a recording");
  gap(stage, 4.0F);
  const float width = std::min(size.x - stage.px(34.0F), stage.px(620.0F));
  line(stage, stage.fonts.small, stage.palette.muted, "File: one recording is one block of shots with one set-up");
  field(stage, "recording", "press one in the list below, or drop it on the window", file_, width);
  line(stage, stage.fonts.small, stage.palette.muted, "Set-up");
  std::vector<std::string> names;
  for (const auto& setup : desk.book->setups) names.push_back(setup.name);
  names.emplace_back("a new one");
  setup_ = std::min(setup_, names.size() - 1);
  one_of(stage, "add setup", names, setup_);
  const bool fresh = setup_ + 1 == names.size();
  if (fresh) {
    field(stage, "new set-up", "its name", new_setup_, 0.4F * width);
    ImGui::SameLine();
    field(stage, "new set-up differs", "what differs from the baseline", changed_, 0.6F * width - stage.px(8.0F));
  }
  field(stage, "add note", "a note on the block, if you like", note_, width);
  gap(stage, 4.0F);
  const std::string setup = fresh ? new_setup_ : names[setup_];
  const bool ready = !file_.empty() && !setup.empty();
  bool done = false;
  if (push(stage, "Measure and keep it", {.kind = Push::main, .icon = Icon::ear, .enabled = ready})) {
    desk.add_recording(file_, {setup, note_, {}}, changed_);
    file_.clear();
    note_.clear();
    new_setup_.clear();
    changed_.clear();
    done = true;
  }
  ImGui::SameLine();
  if (push(stage, "Not now", {.kind = Push::quiet})) done = true;
  gap(stage, 6.0F);
  float rest = size.y - ImGui::GetCursorPosY() - stage.px(14.0F);
  if (!file_.empty()) {
    overview(desk, stage, {size.x - stage.px(34.0F), std::clamp(rest - stage.px(110.0F), stage.px(190.0F), stage.px(280.0F))});
    rest = size.y - ImGui::GetCursorPosY() - stage.px(14.0F);
  }
  if (const auto file = folder_.draw(stage, "recordings", FolderPane::Kind::sounds, {width, std::max(stage.px(120.0F), rest)})) file_ = *file;
  if (done) seen_.clear();
  return done;
}

void AddView::overview(Desk& desk, const Stage& stage, ImVec2 size) {
  std::error_code ignored;
  if (seen_ != file_ && std::filesystem::is_regular_file(file_, ignored)) {
    seen_ = file_;
    desk.look_into(file_);
  }
  const Overview* overview = desk.overview.get();
  if (seen_ != file_) {
    paragraph(stage, stage.fonts.small, stage.palette.muted, "There is no such file.", size.x);
    return;
  }
  if (overview == nullptr || overview->file != file_) {
    paragraph(stage, stage.fonts.small, stage.palette.muted, desk.slow.busy() ? "Looking through it ..." : "It was not looked through.", size.x);
    return;
  }
  if (!overview->trouble.empty()) {
    paragraph(stage, stage.fonts.text, stage.palette.caution, overview->trouble, size.x);
    return;
  }
  const std::string length = clock_text(overview->length_s());
  if (desk.preferences.words_first || desk.book->conditions.blind) {
    paragraph(stage, stage.fonts.small, stage.palette.muted, "It lasts " + length + ". How loud it is stays hidden: words first.", size.x);
    return;
  }
  const float peak_db = overview->peak_db.empty() ? -100.0F : *std::ranges::max_element(overview->peak_db);
  const bool flat = peak_db > -0.01F;
  paragraph(stage, stage.fonts.small, flat ? stage.palette.caution : stage.palette.muted,
            fmt::format("It lasts {}; its loudest place is {:.1f} dB re full scale{}.", length, flat ? 0.0F : peak_db,
                        flat ? ": the gain was too high, loud shots may be cut flat" : ""),
            size.x);
  if (drawn_ != overview->number) {
    drawn_ = overview->number;
    figure_ = overview_figure(*overview, {});
  }
  pane_.draw(stage, "added recording picture", figure_, overview->number, {size.x, size.y - stage.px(20.0F)});
}

}  // namespace ringfall::desk
