// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>
#include <imgui_internal.h>

#include <vector>

namespace ringfall::desk {

/// What can be pressed or written in, in the order it is drawn: Tab goes from one to the next, Shift and Tab back. ImGui's own Tab stops
/// at fields to write in only, and not in the sheets inside the window. Tests: desk.Keyboard.*
class TabOrder {
 public:
  void begin_frame() { stops_.clear(); }
  /// The last item; `writes`: it is a field, and is written in as soon as Tab has come to it.
  void add_last(bool writes);
  /// After the last item of the frame.
  void end_frame();

 private:
  struct Stop {
    ImGuiID id = 0;
    ImGuiWindow* window = nullptr;
    ImRect rect;
    bool writes = false;
  };
  std::vector<Stop> stops_;
};

}  // namespace ringfall::desk
