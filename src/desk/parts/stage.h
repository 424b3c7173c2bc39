// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <map>
#include <string>
#include <vector>

#include "desk/parts/fonts.h"
#include "desk/parts/palette.h"
#include "desk/parts/tab_order.h"
#include "desk/parts/textures.h"

namespace ringfall::desk {

/// Where the things one can press, choose or write in stand in this frame, by name; for tests that click like a person.
struct Place_px {
  ImVec2 low;
  ImVec2 high;
  ImVec2 middle() const { return {0.5F * (low.x + high.x), 0.5F * (low.y + high.y)}; }
};
using Places_px = std::map<std::string, Place_px>;

/// What every view is given each frame to draw with.
struct Stage {
  Palette palette;
  Fonts fonts;
  float scale = 1.0F;             ///< pixels of one design unit
  Textures* textures = nullptr;
  TabOrder* tabs = nullptr;       ///< filled when not null
  Places_px* places = nullptr;    ///< filled when not null
  std::string* focused = nullptr; ///< the name of what has the keyboard, when not null
  std::string* told = nullptr;    ///< the tip that is shown, when not null
  std::vector<std::string>* cut = nullptr;  ///< words on things to press that had no room, when not null
  std::vector<std::string>* wordless = nullptr;  ///< names of things to press with a sign only that no tip explains, when not null

  float px(float units) const { return units * scale; }
  ImVec2 px(float x, float y) const { return {x * scale, y * scale}; }
  /// Names the last item, and Tab goes to it when it can be pressed or, `writes`, written in.
  void name_last(const std::string& name, bool writes = false) const {
    if (tabs != nullptr) tabs->add_last(writes);
    if (focused != nullptr && ImGui::IsItemFocused()) *focused = name;
    if (places != nullptr) (*places)[name] = {ImGui::GetItemRectMin(), ImGui::GetItemRectMax()};
  }
};

}  // namespace ringfall::desk
