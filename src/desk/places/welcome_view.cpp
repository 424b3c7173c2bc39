// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/welcome_view.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "base/failure.h"
#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/figures/placing_sketch.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;
constexpr float kLeastSketch = 210.0F;

}  // namespace

std::string default_logbook(const std::string& name) {
  const char* home = std::getenv("HOME");
  return (fs::path(home != nullptr && *home == '/' ? home : "/tmp") / name).string();
}

void WelcomeView::draw(Desk& desk, const Stage& stage, ImVec2 size) {
  if (ctrl(Key::o)) door_ = Door::open;
  const float left = std::max(stage.px(380.0F), 0.44F * size.x);
  {
    const Sheet sheet(stage, "doors", {left, size.y});
    doors(desk, stage, left - stage.px(32.0F));
  }
  ImGui::SameLine();
  const float right = size.x - left - ImGui::GetStyle().ItemSpacing.x;
  const Sheet sheet(stage, "behind", {right, size.y});
  const float width = right - stage.px(32.0F);
  switch (door_) {
    case Door::none:
      heading(stage, "Before you shoot");
      for (const char* words : {"Never loose the string without an arrow, and no arrow lighter than the bow's maker asks for.",
                                "Nobody and no microphone forward of the shooting line.",
                                "Look the bow over after every change: limbs, string, fastenings.",
                                "The range's rules, the local law and licensed practice come first."}) {
        gap(stage, 4.0F);
        paragraph(stage, stage.fonts.text, stage.palette.text, words);
      }
      gap(stage, 18.0F);
      heading(stage, "What you need");
      gap(stage, 4.0F);
      paragraph(stage, stage.fonts.text, stage.palette.text,
                "One microphone or phone on its own stand, a metre from the bow, behind the line, its spot marked. Gain fixed; "
                "automatic gain and noise suppression off. Ten shots a set-up, in the order A B B A.");
      gap(stage, 18.0F);
      if (const ImVec2 room = ImGui::GetContentRegionAvail(); room.y >= stage.px(kLeastSketch)) {
        heading(stage, "Where the microphone stands");
        gap(stage, 4.0F);
        draw_placing_sketch(stage, {std::min(room.x, stage.px(640.0F)), std::min(room.y - stage.px(40.0F), stage.px(280.0F))});
      }
      break;
    case Door::open:
      heading(stage, "Open a logbook");
      if (const auto file = folder_.draw(stage, "open list", FolderPane::Kind::logbooks, {width, size.y - stage.px(70.0F)})) desk.open(*file);
      break;
    case Door::start: start_form(desk, stage, width); break;
  }
}

void WelcomeView::doors(Desk& desk, const Stage& stage, float width) {
  const Palette& palette = stage.palette;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  draw_mark(*ImGui::GetWindowDrawList(), {at.x, at.y + stage.px(48.0F)}, std::min(width, stage.px(340.0F)), stage.px(80.0F),
            palette.wax, stage.px(3.0F));
  gap(stage, 104.0F);
  paragraph(stage, stage.fonts.title, palette.text, "How does your bow sound?", width);
  paragraph(stage, stage.fonts.text, palette.muted,
            "One microphone, a few shots with each set-up, and an honest answer: quieter, deader, or no difference you would hear.",
            width);
  gap(stage, 14.0F);
  const float wide = std::min(width, stage.px(330.0F));
  if (!desk.damaged.empty()) {
    paragraph(stage, stage.fonts.text, palette.caution,
              fs::path(desk.damaged).filename().string() + " is damaged. What can be read of it can be saved as a logbook of its own; it stays as it is.",
              width);
    if (push(stage, "Save what can be read", {.kind = Push::main, .icon = Icon::plus, .width = wide, .enabled = !desk.slow.busy()})) desk.rescue(desk.damaged);
    gap(stage, 8.0F);
  }
  if (push(stage, "Try the invented evening", {.kind = Push::main, .icon = Icon::play, .width = wide})) {
    desk.make_demo(default_logbook("invented-evening.ringfall"));
  }
  if (push(stage, "Start a logbook", {.icon = Icon::plus, .width = wide, .lit = door_ == Door::start})) {
    door_ = Door::start;
    if (file_.empty()) file_ = default_logbook("my-bow.ringfall");
  }
  if (push(stage, "Open a logbook", {.icon = Icon::folder, .width = wide, .lit = door_ == Door::open})) door_ = Door::open;
  gap(stage, 6.0F);
  paragraph(stage, stage.fonts.small, palette.muted, "Or drop a logbook or a recording on this window.", width);
  if (desk.preferences.recent.empty()) return;
  gap(stage, 14.0F);
  heading(stage, "Opened lately");
  for (const std::string& path : desk.preferences.recent) {
    if (push(stage, (fs::path(path).filename().string() + "##" + path).c_str(), {.kind = Push::quiet, .icon = Icon::page})) {
      desk.open(path);
      break;  // the list is about to change
    }
  }
}

void WelcomeView::start_form(Desk& desk, const Stage& stage, float width) {
  heading(stage, "Start a logbook");
  gap(stage, 4.0F);
  const float wide = std::min(width, stage.px(520.0F));
  const auto ask = [&](const char* word, const char* name, const char* hint, std::string& text) {
    line(stage, stage.fonts.small, stage.palette.muted, word);
    field(stage, name, hint, text, wide);
  };
  ask("File", "logbook file", "my-bow.ringfall", file_);
  ask("Bow", "bow", "grey take-down, 40 lb", bow_);
  session_.archers = desk.preferences.archers_units;
  session_.draw(stage, wide);
  gap(stage, 8.0F);
  if (!push(stage, "Start it", {.kind = Push::main, .icon = Icon::tick, .enabled = !file_.empty() && !bow_.empty()})) return;
  try {
    logbook::Conditions evening;
    evening.bow = bow_;
    session_.apply(evening);
    desk.start(file_, evening);
  } catch (const Failure& failure) {
    desk.say(failure.what(), true);
  }
}

}  // namespace ringfall::desk
