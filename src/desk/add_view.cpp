// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/add_view.h"

#include <algorithm>
#include <filesystem>

#include "desk/parts.h"

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
  const float rest = size.y - ImGui::GetCursorPosY() - stage.px(14.0F);
  if (const auto file = folder_.draw(stage, "recordings", {width, std::max(stage.px(120.0F), rest)})) file_ = *file;
  return done;
}

}  // namespace ringfall::desk
