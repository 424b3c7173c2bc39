// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall {

/// A text as a screen may be given it, whoever wrote it: what steers a terminal or turns the order of its letters is written out
/// ("\x1b", "\u202e"), a byte that is no UTF-8 becomes "\xNN". Taken out are the control characters of ISO/IEC 6429 (C0 0x00-0x1F
/// but line feed, and tab; 0x7F; C1 0x80-0x9F), the line and paragraph separators and the marks of Unicode Standard Annex 9 that
/// embed, override or isolate a direction. `lines`: false for a word, in which a line feed and a tab are written out too.
/// Tested: base.ScreenText.*
std::string screen_text(std::string_view text, bool lines = true);

/// JSON text with the same characters, where they stand unescaped, as its own \uNNNN: the value read from it is the same.
std::string screen_json(std::string_view json);

}  // namespace ringfall
