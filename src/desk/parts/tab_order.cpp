// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/tab_order.h"

#include <algorithm>

#include "desk/parts/keys.h"

namespace ringfall::desk {

void TabOrder::add_last(bool writes) {
  const ImGuiContext& context = *ImGui::GetCurrentContext();
  const ImGuiID id = context.LastItemData.ID;
  const bool off = (context.LastItemData.InFlags & ImGuiItemFlags_Disabled) != 0;
  // Words and pictures to be looked at have no id; some things are named twice.
  if (id == 0 || off || (!stops_.empty() && stops_.back().id == id)) return;
  stops_.push_back({id, ImGui::GetCurrentWindow(), context.LastItemData.Rect, writes});
}

void TabOrder::end_frame() {
  ImGuiContext& context = *ImGui::GetCurrentContext();
  const ImGuiIO& io = context.IO;
  if (stops_.empty() || io.KeyCtrl || io.KeyAlt || !ImGui::IsKeyPressed(index_of(Key::tab))) return;
  const ImGuiID now = context.ActiveId != 0 ? context.ActiveId : context.NavId;
  const auto n = static_cast<std::ptrdiff_t>(stops_.size());
  const auto found = std::ranges::find(stops_, now, &Stop::id) - stops_.begin();
  const std::ptrdiff_t next = found == n ? (io.KeyShift ? n - 1 : 0) : (found + (io.KeyShift ? n - 1 : 1)) % n;
  const Stop& stop = stops_[static_cast<std::size_t>(next)];
  if (context.ActiveId != 0) ImGui::ClearActiveID();
  ImGui::FocusWindow(stop.window);
  ImGui::SetNavID(stop.id, ImGuiNavLayer_Main, 0, ImGui::WindowRectAbsToRel(stop.window, stop.rect));
  context.NavDisableHighlight = false;
  ImGui::ScrollToBringRectIntoView(stop.window, stop.rect);
  if (stop.writes) ImGui::ActivateItem(stop.id);
}

}  // namespace ringfall::desk
