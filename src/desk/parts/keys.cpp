// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/keys.h"

namespace ringfall::desk {

void map_keys(ImGuiIO& io) {
  const auto set = [&io](ImGuiKey which, Key key) { io.KeyMap[which] = index_of(key); };
  set(ImGuiKey_LeftArrow, Key::left);
  set(ImGuiKey_RightArrow, Key::right);
  set(ImGuiKey_UpArrow, Key::up);
  set(ImGuiKey_DownArrow, Key::down);
  set(ImGuiKey_PageUp, Key::page_up);
  set(ImGuiKey_PageDown, Key::page_down);
  set(ImGuiKey_Home, Key::home);
  set(ImGuiKey_End, Key::end);
  set(ImGuiKey_Insert, Key::insert);
  set(ImGuiKey_Delete, Key::del);
  set(ImGuiKey_Backspace, Key::backspace);
  set(ImGuiKey_Space, Key::space);
  set(ImGuiKey_Enter, Key::enter);
  set(ImGuiKey_Escape, Key::escape);
  set(ImGuiKey_KeyPadEnter, Key::keypad_enter);
  set(ImGuiKey_A, Key::a);
  set(ImGuiKey_C, Key::c);
  set(ImGuiKey_V, static_cast<Key>('V'));
  set(ImGuiKey_X, Key::x);
  set(ImGuiKey_Y, Key::y);
  set(ImGuiKey_Z, Key::z);
}

}  // namespace ringfall::desk
