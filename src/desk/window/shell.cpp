// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/window/shell.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "desk/window/help.h"
#include "desk/places/hidden_pane.h"
#include "desk/parts/keys.h"
#include "desk/parts/parts.h"
#include "desk/window/strip.h"

namespace ringfall::desk {
namespace {

constexpr float kHeadHigh = 58.0F;
constexpr float kStripHigh = 84.0F;
constexpr float kFootHigh = 30.0F;
constexpr float kSide = 14.0F;
constexpr double kNoticeStays_s = 8.0;

/// A place's word; under the one where we are its ring dies away.
bool place_word(const Stage& stage, Place place, bool here, bool open) {
  const char* name = place_name(place);
  ImFont* font = here ? stage.fonts.strong : stage.fonts.text;
  const ImVec2 text = font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, name);
  const ImVec2 size = {text.x + stage.px(20.0F), stage.px(44.0F)};
  const bool pressed = ImGui::InvisibleButton(name, size);
  stage.name_last(name);
  const ImVec2 low = ImGui::GetItemRectMin();
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImU32 ink = !open ? faded(stage.palette.muted, 0.65F) : here || ImGui::IsItemHovered() ? stage.palette.text : stage.palette.muted;
  list.AddText(font, font->FontSize, {std::round(low.x + stage.px(10.0F)), std::round(low.y + stage.px(8.0F))}, ink, name);
  if (here) {
    draw_mark(list, {low.x + stage.px(10.0F), low.y + stage.px(35.0F)}, text.x, stage.px(11.0F), stage.palette.wax, stage.px(2.0F));
  }
  show_focus(stage);
  if (!open) show_tip(stage, "open or start a logbook first");
  return pressed && open;
}

}  // namespace

void Shell::draw(Desk& desk, const Stage& stage) {
  if (stage.tabs != nullptr) stage.tabs->begin_frame();
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  ImGui::SetNextWindowPos({0.0F, 0.0F});
  ImGui::SetNextWindowSize(size);
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0.0F, 0.0F});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0.0F);
  ImGui::Begin("ringfall", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus);
  ImGui::PopStyleVar(2);
  keys(desk);
  const float side = stage.px(kSide);
  const float width = size.x - 2.0F * side;
  head(desk, stage, size.x);
  const bool strip = desk.book && !desk.book->shots.empty();
  const float below = stage.px(kFootHigh + (strip ? kStripHigh : 0.0F)) + stage.px(6.0F);
  ImGui::SetCursorPos({side, stage.px(kHeadHigh)});
  ImGui::BeginChild("body", {width, size.y - stage.px(kHeadHigh) - below}, false, kInside);
  body(desk, stage, ImGui::GetContentRegionAvail());
  ImGui::EndChild();
  if (strip) {
    ImGui::SetCursorPos({side, size.y - below + stage.px(6.0F)});
    draw_strip(desk, stage, {width, stage.px(kStripHigh)});
  }
  ImGui::SetCursorPos({side, size.y - stage.px(kFootHigh)});
  foot(desk, stage, width);
  ImGui::End();
  notices(desk, stage);
  if (key_pressed(Key::escape)) help_ = false;
  if (help_) draw_help(stage);
  if (stage.tabs != nullptr) stage.tabs->end_frame();
}

void Shell::keys(Desk& desk) {
  for (int k = 0; k < kPlaces; ++k) {
    if (desk.book && ImGui::IsKeyPressed(index_of(Key::f1) + k, false)) desk.place = static_cast<Place>(k);
  }
  if (ctrl(Key::t)) {
    desk.preferences.theme = desk.preferences.theme == plot::Theme::dark ? plot::Theme::light : plot::Theme::dark;
  }
  if (ctrl(Key::z) && !ImGui::GetIO().WantTextInput) desk.undo();
  const auto scale = [&](double by) { desk.preferences.text_scale = std::clamp(desk.preferences.text_scale + by, 0.7, 2.0); };
  if (ctrl(Key::equal) || ctrl(Key::keypad_add)) scale(0.1);
  if (ctrl(Key::minus) || ctrl(Key::keypad_subtract)) scale(-0.1);
}

void Shell::head(Desk& desk, const Stage& stage, float width) {
  ImDrawList& list = *ImGui::GetWindowDrawList();
  draw_mark(list, {stage.px(kSide), stage.px(29.0F)}, stage.px(44.0F), stage.px(26.0F), stage.palette.wax, stage.px(2.0F));
  ImGui::SetCursorPos(stage.px(kSide + 52.0F, 8.0F));
  for (int k = 0; k < kPlaces; ++k) {
    if (k > 0) ImGui::SameLine(0.0F, stage.px(width > stage.px(1150.0F) ? 8.0F : 0.0F));
    const auto place = static_cast<Place>(k);
    if (place_word(stage, place, desk.place == place, desk.book != nullptr || place == Place::book)) desk.place = place;
  }
  wishes(desk, stage, width - stage.px(kSide));
}

void Shell::wishes(Desk& desk, const Stage& stage, float right) {
  Preferences& kept = desk.preferences;
  const auto place = [&](float from_right) { ImGui::SetCursorPos({right - stage.px(from_right), stage.px(11.0F)}); };
  const auto look = [&stage](std::string tip, Icon icon = Icon::none) {
    return PushLook{.kind = Push::quiet, .icon = icon, .width = stage.px(40.0F), .tip = std::move(tip)};
  };
  place(208.0F);
  const std::string undo = desk.undo_words();
  PushLook back = look(undo.empty() ? "nothing to take back" : "take back: " + undo + " (Ctrl+Z)", Icon::undo);
  back.enabled = !undo.empty();
  if (push(stage, "##undo", back)) desk.undo();
  place(166.0F);
  if (push(stage, kept.archers_units ? "yd##units" : "m##units", look("metric or archers' units"))) kept.archers_units = !kept.archers_units;
  place(124.0F);
  if (push(stage, "A+##type", look("larger type (Ctrl and + or -); after the largest the smallest"))) {
    kept.text_scale = kept.text_scale > 1.65 ? 0.8 : kept.text_scale + 0.1;
  }
  place(82.0F);
  if (push(stage, "##theme", look("light or dark (Ctrl+T)", Icon::halo))) {
    kept.theme = kept.theme == plot::Theme::dark ? plot::Theme::light : plot::Theme::dark;
  }
  place(40.0F);
  PushLook help = look("what the keys do");
  help.lit = help_;
  if (push(stage, "?##help", help)) help_ = !help_;
}

void Shell::body(Desk& desk, const Stage& stage, ImVec2 size) {
  if (!desk.book) {
    book_.draw(desk, stage, size);
    return;
  }
  // Numbers of single shots are hidden where they stand; what is made from all of them is hidden as a whole.
  const bool from_all = desk.place == Place::compare || desk.place == Place::ears || desk.place == Place::season ||
                        desk.place == Place::page;
  if (from_all && draw_hidden(desk, stage, size)) return;
  // What these show is made from the comparison.
  if (desk.place == Place::compare || desk.place == Place::ears || desk.place == Place::page || desk.place == Place::plan) desk.need_comparison();
  switch (desk.place) {
    case Place::book: book_.draw(desk, stage, size); break;
    case Place::range: range_.draw(desk, stage, size); break;
    case Place::shot: shot_.draw(desk, stage, size); break;
    case Place::compare: compare_.draw(desk, stage, size); break;
    case Place::ears: ears_.draw(desk, stage, size); break;
    case Place::season: season_.draw(desk, stage, size); break;
    case Place::plan: plan_.draw(desk, stage, size); break;
    case Place::page: page_.draw(desk, stage, size); break;
  }
}

void Shell::foot(Desk& desk, const Stage& stage, float width) {
  const ImVec2 at = ImGui::GetCursorScreenPos();
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float y = at.y + stage.px(5.0F);
  auto busy = desk.slow.busy();
  Lane* lane = &desk.slow;
  if (!busy) {
    busy = desk.quick.busy();
    lane = &desk.quick;
  }
  if (busy) {
    const float bar = stage.px(220.0F);
    list.AddRectFilled({at.x, y + stage.px(7.0F)}, {at.x + bar, y + stage.px(11.0F)}, stage.palette.well);
    const float share = static_cast<float>(busy->share.value_or(0.0));
    list.AddRectFilled({at.x, y + stage.px(7.0F)}, {at.x + share * bar, y + stage.px(11.0F)}, stage.palette.wax);
    std::string words = busy->what;
    if (busy->share) words += fmt::format("  {:.0f} %", 100.0 * *busy->share);
    if (busy->waiting > 0) words += fmt::format("  ({} more)", busy->waiting);
    words = fitted(stage.fonts.small, words, width - bar - stage.px(130.0F));
    list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {at.x + bar + stage.px(12.0F), y}, stage.palette.text, words.c_str());
    ImGui::SetCursorScreenPos({at.x + width - stage.px(110.0F), at.y - stage.px(3.0F)});
    if (lane == &desk.slow && push(stage, "Stop", {.kind = Push::quiet, .icon = Icon::cross})) lane->cancel();
    return;
  }
  const std::string words = desk.book ? desk.book->path : "Everything stays on this computer.";
  list.AddText(stage.fonts.small, stage.fonts.small->FontSize, {at.x, y}, stage.palette.muted, words.c_str());
}

void Shell::notices(Desk& desk, const Stage& stage) {
  if (desk.notices.empty()) return;
  const ImVec2 size = ImGui::GetIO().DisplaySize;
  float bottom = size.y - stage.px(kFootHigh + kStripHigh + 16.0F);
  const float wide = std::min(stage.px(460.0F), size.x - stage.px(40.0F));
  std::size_t gone = desk.notices.size();
  for (std::size_t k = 0; k < desk.notices.size(); ++k) {
    Notice& notice = desk.notices[k];
    if (notice.seen_s < 0.0) notice.seen_s = ImGui::GetTime();
    if (!notice.trouble && ImGui::GetTime() - notice.seen_s > kNoticeStays_s) gone = k;
  }
  for (std::size_t k = desk.notices.size(); k-- > 0;) {
    const Notice& notice = desk.notices[k];
    const std::string words = broken(stage.fonts.text, notice.words, wide - stage.px(118.0F));
    const ImVec2 text = ImGui::CalcTextSize(words.c_str());
    const float high = text.y + stage.px(26.0F);
    bottom -= high;
    ImGui::SetNextWindowPos({size.x - wide - stage.px(20.0F), bottom});
    ImGui::SetNextWindowSize({wide, high});
    ImGui::PushStyleColor(ImGuiCol_WindowBg, stage.palette.well);
    ImGui::Begin(fmt::format("notice {}", k).c_str(), nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoFocusOnAppearing);
    const ImVec2 low = ImGui::GetWindowPos();
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.PushClipRectFullScreen();  // a window's own room begins further in
    list.AddRectFilled(low, {low.x + stage.px(5.0F), low.y + high}, notice.trouble ? stage.palette.caution : stage.palette.wax);
    list.PopClipRect();
    ImGui::Dummy({1.0F, 1.0F});
    stage.name_last(fmt::format("{} {}", notice.trouble ? "trouble" : "notice", k));
    if (notice.trouble) draw_icon(list, Icon::caution, {low.x + stage.px(22.0F), low.y + stage.px(22.0F)}, stage.px(14.0F), stage.palette.caution);
    ImGui::SetCursorPos({stage.px(notice.trouble ? 38.0F : 16.0F), stage.px(12.0F)});
    line(stage, stage.fonts.text, stage.palette.text, words);
    if (!notice.link.empty()) {
      ImGui::SetCursorPos({wide - stage.px(78.0F), stage.px(5.0F)});
      if (push(stage, fmt::format("##show {}", k).c_str(), {.kind = Push::quiet, .icon = Icon::grow, .width = stage.px(34.0F), .tip = "show it"})) show_file(notice.link);
    }
    ImGui::SetCursorPos({wide - stage.px(44.0F), stage.px(5.0F)});
    if (push(stage, fmt::format("##away {}", k).c_str(), {.kind = Push::quiet, .icon = Icon::cross, .width = stage.px(34.0F), .tip = "away with it"})) gone = k;
    ImGui::End();
    ImGui::PopStyleColor();
    bottom -= stage.px(8.0F);
  }
  if (gone < desk.notices.size()) desk.notices.erase(desk.notices.begin() + static_cast<std::ptrdiff_t>(gone));
}

}  // namespace ringfall::desk
