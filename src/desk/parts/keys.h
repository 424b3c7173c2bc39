// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

namespace ringfall::desk {

/// Keys by the numbers GLFW gives them (letters and digits are their ASCII), which are also ImGui's indices here: the window and
/// the tests feed the same.
enum class Key : int {
  space = 32, apostrophe = 39, comma = 44, minus = 45, period = 46, slash = 47, zero = 48, equal = 61,
  a = 65, b = 66, c = 67, d = 68, e = 69, h = 72, l = 76, n = 78, o = 79, p = 80, q = 81, s = 83, t = 84, x = 88, y = 89, z = 90,
  escape = 256, enter = 257, tab = 258, backspace = 259, insert = 260, del = 261, right = 262, left = 263, down = 264, up = 265,
  page_up = 266, page_down = 267, home = 268, end = 269, f1 = 290, keypad_subtract = 333, keypad_add = 334, keypad_enter = 335
};

inline int index_of(Key key) { return static_cast<int>(key); }

inline bool key_pressed(Key key) { return ImGui::IsKeyPressed(index_of(key)); }

/// A letter or digit as a command: not while someone writes, nor with Ctrl or Alt.
inline bool command(Key key) {
  const ImGuiIO& io = ImGui::GetIO();
  return !io.WantTextInput && !io.KeyCtrl && !io.KeyAlt && ImGui::IsKeyPressed(index_of(key), false);
}

inline bool ctrl(Key key) {
  const ImGuiIO& io = ImGui::GetIO();
  return io.KeyCtrl && !io.KeyAlt && ImGui::IsKeyPressed(index_of(key), false);
}

/// What ImGui itself needs to know of the keyboard.
void map_keys(ImGuiIO& io);

}  // namespace ringfall::desk
