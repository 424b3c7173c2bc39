// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/hidden_pane.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "desk/parts/parts.h"

namespace ringfall::desk {

bool draw_hidden(Desk& desk, const Stage& stage, ImVec2 size) {
  const auto& hidden = desk.book->hidden;
  if (hidden.empty()) return false;
  const Sheet paper(stage, "hidden", size);
  const float width = std::min(size.x - stage.px(40.0F), stage.px(620.0F));
  heading(stage, "Your words first");
  paragraph(stage, stage.fonts.text, stage.palette.text,
            fmt::format("{} of a blind session {} no comment yet. Numbers, and all that would give them away, are hidden until yours are in: say "
                        "something of each, or leave it out.",
                        counted(hidden.size(), "shot"), hidden.size() == 1 ? "has" : "have"),
            width);
  gap(stage, 6.0F);
  if (push(stage, "To the first of them", {.kind = Push::main, .icon = Icon::ear})) {
    desk.choose(hidden.front());
    desk.place = Place::shot;
  }
  return true;
}

}  // namespace ringfall::desk
