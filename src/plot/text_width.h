// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall::plot {

/// The font of all pictures. Its widths are known here, so that layout needs neither a font nor Cairo and is
/// the same on every machine.
inline constexpr const char* kFontFamily = "DejaVu Sans";

/// Width in points of one line of UTF-8 text of DejaVu Sans, without kerning: exact for ASCII, Latin-1,
/// Latin Extended-A, Greek and common signs; other letters are taken as 0.6 em, East Asian ones as 1 em.
/// Tests: TextWidthTest (against Cairo).
double text_width(std::string_view text, double size_pt);

/// The characters of a UTF-8 text; broken bytes become U+FFFD, control characters a space.
std::u32string characters_of(std::string_view text);
std::string utf8_of(std::u32string_view characters);

/// Text that any XML reader and Cairo accept: characters_of and back.
std::string clean_text(std::string_view text);

/// The same with the five characters that mean something in XML and HTML as entities: safe between tags and inside
/// quoted attributes. Tests: SvgTest, report.Page.*
std::string xml_text(std::string_view text);

}  // namespace ringfall::plot
