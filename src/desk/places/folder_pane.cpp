// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/places/folder_pane.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "desk/parts/parts.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostEntries = 3000;
constexpr double kLookEvery_s = 1.0;

std::string ending_of(const std::string& name) {
  std::string ending = fs::path(name).extension().string();
  std::ranges::transform(ending, ending.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return ending;
}

}  // namespace

bool is_sound_name(const std::string& name) {
  static constexpr std::array kEndings = {".wav", ".flac", ".ogg", ".opus", ".mp3", ".m4a", ".aac", ".aif", ".aiff", ".caf",
                                          ".w64", ".amr", ".3gp", ".mp4", ".mov", ".webm"};
  return std::ranges::find(kEndings, ending_of(name)) != kEndings.end();
}

bool is_logbook_name(const std::string& name) { return ending_of(name) == ".ringfall"; }

FolderPane::FolderPane() {
  const char* home = std::getenv("HOME");
  folder_ = home != nullptr && *home == '/' ? home : "/";
  typed_ = folder_;
}

void FolderPane::look_at(const std::string& folder) {
  folder_ = typed_ = folder;
  entries_.clear();
}

void FolderPane::read(Kind kind) {
  entries_.clear();
  trouble_.clear();
  std::error_code failed;
  for (fs::directory_iterator it(folder_, fs::directory_options::skip_permission_denied, failed), end; !failed && it != end;
       it.increment(failed)) {
    const std::string name = it->path().filename().string();
    if (name.empty() || name[0] == '.' || entries_.size() >= kMostEntries) continue;
    std::error_code ignored;
    const bool folder = it->is_directory(ignored);
    if (folder || (kind == Kind::sounds ? is_sound_name(name) : is_logbook_name(name))) entries_.push_back({name, folder});
  }
  if (failed) trouble_ = "This folder can't be read: " + failed.message();
  std::ranges::sort(entries_, [](const Entry& a, const Entry& b) {
    return a.folder != b.folder ? a.folder : a.name < b.name;
  });
  entries_.insert(entries_.begin(), Entry{"..", true});
}

std::optional<std::string> FolderPane::draw(const Stage& stage, const char* name, Kind kind, ImVec2 size) {
  std::optional<std::string> pressed;
  ImGui::PushID(name);
  if (entries_.empty() || ImGui::GetTime() - looked_at_s_ > kLookEvery_s) {
    looked_at_s_ = ImGui::GetTime();
    std::error_code ignored;
    const auto changed_at = fs::last_write_time(folder_, ignored);
    if (entries_.empty() || changed_at != read_at_) read(kind);
    read_at_ = changed_at;
  }
  bool entered = false;
  field(stage, "folder", "Folder", typed_, size.x, &entered);
  if (entered) {
    std::error_code failed;
    if (fs::is_regular_file(typed_, failed)) pressed = typed_;
    else look_at(typed_);
  }
  ImGui::BeginChild("list", {size.x, std::max(stage.px(60.0F), size.y - stage.px(42.0F))}, false, kInside);
  if (!trouble_.empty()) paragraph(stage, stage.fonts.text, stage.palette.caution, trouble_);
  std::optional<std::string> into;
  for (const Entry& entry : entries_) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float high = stage.px(28.0F);
    ImGui::PushID(entry.name.c_str());
    if (ImGui::InvisibleButton("entry", {size.x - stage.px(14.0F), high})) {
      const fs::path path = fs::path(folder_) / entry.name;
      if (entry.folder) into = path.lexically_normal().string();
      else pressed = path.string();
    }
    ImGui::PopID();
    stage.name_last(entry.name);
    ImDrawList& list = *ImGui::GetWindowDrawList();
    if (ImGui::IsItemHovered()) list.AddRectFilled(ImGui::GetItemRectMin(), ImGui::GetItemRectMax(), stage.palette.hover);
    const ImU32 ink = entry.folder ? stage.palette.muted : stage.palette.text;
    draw_icon(list, entry.folder ? Icon::folder : (is_sound_name(entry.name) ? Icon::ear : Icon::page),
              {at.x + stage.px(12.0F), at.y + 0.5F * high}, stage.px(13.0F), ink);
    list.AddText(stage.fonts.text, stage.fonts.text->FontSize,
                 {at.x + stage.px(28.0F), at.y + 0.5F * (high - stage.fonts.text->FontSize)}, ink,
                 fitted(stage.fonts.text, entry.name, size.x - stage.px(50.0F)).c_str());
    show_focus(stage);
  }
  ImGui::EndChild();
  ImGui::PopID();
  if (into) {
    std::string folder = *into;
    if (folder.size() > 1 && folder.back() == '/') folder.pop_back();
    look_at(folder);
  }
  return pressed;
}

}  // namespace ringfall::desk
