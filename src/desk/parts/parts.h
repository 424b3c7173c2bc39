// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <imgui.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desk/parts/icons.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// The few kinds of things the window is made of. Each can be reached and worked with Tab, arrows and Space, shows where the
/// keyboard is, and enters its name with Stage::name_last.

/// Sets ImGui's own style (fields, scroll bars, pop-ups) to the palette.
void dress(const Stage& stage);

/// One line of words at the cursor.
void line(const Stage& stage, ImFont* font, ImU32 colour, std::string_view words);
/// Words broken at the room that is left (or at `width`).
void paragraph(const Stage& stage, ImFont* font, ImU32 colour, std::string_view words, float width = 0.0F);
/// The words with line ends where they leave `width`: between words, but not between a number and its unit; a word that is too long for
/// a line is cut. Tests: desk.Lines.*
std::string broken(ImFont* font, std::string_view words, float width);
/// The beginning of the words and an ellipsis when they are wider than `width`.
std::string fitted(ImFont* font, std::string_view words, float width);
/// A heading inside a sheet.
void heading(const Stage& stage, std::string_view words);
/// Free room downwards, in design units.
void gap(const Stage& stage, float units);

enum class Push { plain, main, quiet };
struct PushLook {
  Push kind = Push::plain;
  Icon icon = Icon::none;
  float width = 0.0F;     ///< 0: as wide as its words
  bool enabled = true;
  bool lit = false;       ///< it is on
  bool to_left = false;   ///< words at the left instead of the middle
  std::string tip = {};   ///< said when it is pointed at or has the keyboard; what has no words must have one
};
/// Something to press. `name` is its id and name; what stands before "##" is shown.
bool push(const Stage& stage, const char* name, const PushLook& look = {});

/// One line to write in; true when it was changed. `entered` is set when Enter ended it.
bool field(const Stage& stage, const char* name, const char* hint, std::string& text, float width, bool* entered = nullptr);

/// Several words, one of them chosen; true when the choice changed.
bool one_of(const Stage& stage, const char* name, const std::vector<std::string>& words, std::size_t& chosen);
bool on_off(const Stage& stage, const char* name, bool& on);

/// Eleven beads 0 .. 10 after a word; pressing the chosen bead again takes the rating back.
bool rating(const Stage& stage, const char* name, std::optional<double>& value, float width);

/// For every window inside the window: arrow keys go in and out as if it were none.
inline constexpr ImGuiWindowFlags kInside = ImGuiWindowFlags_NavFlattened;

/// A sheet of paper: ground for words and pictures, until the object's end.
class Sheet {
 public:
  Sheet(const Stage& stage, const char* name, ImVec2 size, bool padded = true);
  ~Sheet();
  Sheet(const Sheet&) = delete;
  Sheet& operator=(const Sheet&) = delete;
};

/// A number as people read it: big, with its word above and its unit after it.
struct Tile {
  std::string word;
  std::string value;   ///< "-" when there is none
  std::string unit;
  bool doubtful = false;
};
void tiles(const Stage& stage, const std::vector<Tile>& row, float width);

/// Says more of the last item when it is pointed at or has the keyboard.
void show_tip(const Stage& stage, const std::string& words);

/// Draws the keyboard's ring round the last item when it is there.
void show_focus(const Stage& stage);

}  // namespace ringfall::desk
