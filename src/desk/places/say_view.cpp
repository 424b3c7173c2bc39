// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/say_view.h"

#include <fmt/format.h>

#include <algorithm>

#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/parts/words.h"

namespace ringfall::desk {

void SayView::draw(Desk& desk, const Stage& stage, const ShotAt& at, float width) {
  const logbook::KeptShot& shot = desk.book->shot(at);
  if (of_ != shot.id) {
    of_ = shot.id;
    draft_ = {};
    changing_.reset();
    reason_.clear();
    dropping_ = false;
  }
  heading(stage, changing_ ? "Change your words" : "Your words");
  said(desk, stage, shot, width);
  gap(stage, 2.0F);
  rating(stage, "loud", draft_.loud, width);
  rating(stage, "hum", draft_.hum, width);
  rating(stage, "ping", draft_.ping, width);
  rating(stage, "feel", draft_.feel, width);
  bool entered = false;
  field(stage, "words", "dead in the hand, ping stays", draft_.words, width, &entered);
  const bool something = draft_.loud || draft_.hum || draft_.ping || draft_.feel || !draft_.words.empty();
  const bool keep = push(stage, changing_ ? "Keep the change" : "Keep the words", {.kind = Push::main, .icon = Icon::tick, .enabled = something});
  bool done = false;
  if (changing_) {
    ImGui::SameLine();
    done = push(stage, "As it was", {.kind = Push::quiet});
  }
  if ((keep || entered) && something) {
    if (changing_) desk.change_comment(shot.id, *changing_, draft_);
    else desk.comment(shot.id, draft_);
    done = true;
  }
  if (done) {
    draft_ = {};
    changing_.reset();
  }
  gap(stage, 8.0F);
  reasons(desk, stage, shot, width);
}

void SayView::said(Desk& desk, const Stage& stage, const logbook::KeptShot& shot, float width) {
  const float button = stage.px(34.0F);
  for (const auto& comment : shot.comments) {
    const bool chosen = changing_ && changing_->id == comment.id;
    const ImVec2 at = ImGui::GetCursorPos();
    ImGui::SetCursorPosY(at.y + stage.px(6.0F));
    paragraph(stage, stage.fonts.text, chosen ? stage.palette.wax : stage.palette.text, said_words(comment), width - 2.0F * button - stage.px(10.0F));
    const float below = std::max(ImGui::GetCursorPosY(), at.y + stage.px(36.0F));
    ImGui::SetCursorPos({at.x + width - 2.0F * button, at.y});
    if (push(stage, fmt::format("##change {}", comment.id).c_str(), {.kind = Push::quiet, .icon = Icon::pen, .width = button, .lit = chosen, .tip = "change it"})) {
      changing_ = comment;
      draft_ = comment;
    }
    ImGui::SetCursorPos({at.x + width - button, at.y});
    if (push(stage, fmt::format("##take away {}", comment.id).c_str(), {.kind = Push::quiet, .icon = Icon::cross, .width = button, .tip = "take it away"})) {
      desk.remove_comment(shot.id, comment);
      if (chosen) changing_.reset();
    }
    ImGui::SetCursorPos({at.x, below});
  }
}

void SayView::reasons(Desk& desk, const Stage& stage, const logbook::KeptShot& shot, float width) {
  if (!shot.dropped.empty()) {
    heading(stage, "Left out");
    paragraph(stage, stage.fonts.text, stage.palette.caution, shot.dropped);
    if (push(stage, "Take it in again", {.icon = Icon::undo})) desk.drop_shot(shot.id, {});
    return;
  }
  if (!dropping_) {
    if (push(stage, "Leave this shot out", {.icon = Icon::cross}) || command(Key::d)) dropping_ = true;
    return;
  }
  heading(stage, "Leave it out, because");
  const float half = 0.5F * (width - ImGui::GetStyle().ItemSpacing.x);
  int place = 0;
  for (const char* why : {"plucked", "hit the arm", "a neighbour's noise"}) {
    if (push(stage, why, {.kind = Push::plain, .width = half})) {
      desk.drop_shot(shot.id, why);
      dropping_ = false;
    }
    if (place++ % 2 == 0) ImGui::SameLine();
  }
  if (push(stage, "it is no shot", {.kind = Push::plain, .width = half})) {
    desk.not_a_shot(shot.id);
    dropping_ = false;
  }
  bool entered = false;
  field(stage, "reason", "or in your own words, then Enter", reason_, width, &entered);
  if (entered && !reason_.empty()) {
    desk.drop_shot(shot.id, reason_);
    dropping_ = false;
  }
  if (push(stage, "No, it counts", {.kind = Push::quiet})) dropping_ = false;
}

}  // namespace ringfall::desk
