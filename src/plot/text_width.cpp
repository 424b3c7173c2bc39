// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/text_width.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

namespace ringfall::plot {
namespace {

// Advance widths of DejaVu Sans in 1/2048 em, read from the font's hmtx table.
constexpr double kUnitsPerEm = 2048.0;

struct Advance {
  char32_t code;
  std::uint16_t width;
};

// clang-format off
constexpr std::array<std::uint16_t, 95> kAscii = {
    651, 821, 942, 1716, 1303, 1946, 1597, 563, 799, 799, 1024, 1716, 651, 739, 651, 690,
    1303, 1303, 1303, 1303, 1303, 1303, 1303, 1303, 1303, 1303, 690, 690, 1716, 1716, 1716, 1087,
    2048, 1401, 1405, 1430, 1577, 1294, 1178, 1587, 1540, 604, 604, 1343, 1141, 1767, 1532, 1612,
    1235, 1612, 1423, 1300, 1251, 1499, 1401, 2025, 1403, 1251, 1403, 799, 690, 799, 1716, 1024,
    1024, 1255, 1300, 1126, 1300, 1260, 721, 1300, 1298, 569, 569, 1186, 569, 1995, 1298, 1253,
    1300, 1300, 842, 1067, 803, 1298, 1212, 1675, 1212, 1212, 1075, 1303, 690, 1303, 1716,
};
constexpr std::array<std::uint16_t, 224> kLatin = {
    651, 821, 1303, 1303, 1303, 1303, 690, 1024, 1024, 2048, 965, 1253, 1716, 739, 2048, 1024,
    1024, 1716, 821, 821, 1024, 1303, 1303, 651, 1024, 821, 965, 1253, 1985, 1985, 1985, 1087,
    1401, 1401, 1401, 1401, 1401, 1401, 1995, 1430, 1294, 1294, 1294, 1294, 604, 604, 604, 604,
    1587, 1532, 1612, 1612, 1612, 1612, 1612, 1716, 1612, 1499, 1499, 1499, 1499, 1251, 1239, 1290,
    1255, 1255, 1255, 1255, 1255, 1255, 2011, 1126, 1260, 1260, 1260, 1260, 569, 569, 569, 569,
    1253, 1298, 1253, 1253, 1253, 1253, 1253, 1716, 1253, 1298, 1298, 1298, 1298, 1212, 1300, 1212,
    1401, 1255, 1401, 1255, 1401, 1255, 1430, 1126, 1430, 1126, 1430, 1126, 1430, 1126, 1577, 1300,
    1587, 1300, 1294, 1260, 1294, 1260, 1294, 1260, 1294, 1260, 1294, 1260, 1587, 1300, 1587, 1300,
    1587, 1300, 1587, 1300, 1540, 1298, 1876, 1423, 604, 569, 604, 569, 604, 569, 604, 569,
    604, 569, 1208, 1138, 604, 569, 1343, 1186, 1186, 1141, 569, 1141, 569, 1141, 768, 1141,
    700, 1151, 582, 1532, 1298, 1532, 1298, 1532, 1298, 1666, 1532, 1298, 1612, 1253, 1612, 1253,
    1612, 1253, 2191, 2095, 1423, 842, 1423, 842, 1423, 842, 1300, 1067, 1300, 1067, 1300, 1067,
    1300, 1067, 1251, 803, 1251, 803, 1251, 803, 1499, 1298, 1499, 1298, 1499, 1298, 1499, 1298,
    1499, 1298, 1499, 1298, 2025, 1675, 1251, 1212, 1251, 1403, 1075, 1403, 1075, 1403, 1075, 721,
};
constexpr std::array<std::uint16_t, 64> kGreek = {
    693, 1401, 1405, 1141, 1401, 1294, 1403, 1540, 1612, 604, 1343, 1401, 1767, 1532, 1294, 1612,
    1540, 1235, 1229, 1294, 1251, 1251, 1612, 1403, 1612, 1565, 604, 1251, 1350, 1107, 1298, 693,
    1185, 1350, 1307, 1212, 1253, 1107, 1114, 1298, 1253, 693, 1207, 1212, 1303, 1144, 1142, 1253,
    1233, 1300, 1202, 1298, 1233, 1185, 1351, 1183, 1351, 1715, 693, 1185, 1253, 1185, 1715, 1343,
};
constexpr std::array kOthers = {
    Advance{0x2009, 409},
    Advance{0x2010, 739},
    Advance{0x2012, 1303},
    Advance{0x2013, 1024},
    Advance{0x2014, 2048},
    Advance{0x2018, 651},
    Advance{0x2019, 651},
    Advance{0x201c, 1061},
    Advance{0x201d, 1061},
    Advance{0x2022, 1208},
    Advance{0x2026, 2048},
    Advance{0x202f, 409},
    Advance{0x2032, 465},
    Advance{0x2070, 821},
    Advance{0x2074, 821},
    Advance{0x2079, 821},
    Advance{0x2080, 821},
    Advance{0x2081, 821},
    Advance{0x2082, 821},
    Advance{0x2190, 1716},
    Advance{0x2192, 1716},
    Advance{0x2212, 1716},
    Advance{0x221a, 1305},
    Advance{0x221e, 1706},
    Advance{0x2220, 1836},
    Advance{0x2248, 1716},
    Advance{0x2260, 1716},
    Advance{0x2264, 1716},
    Advance{0x2265, 1716},
};
// clang-format on
// Of the letters outside the tables: those of East Asia are an em wide, others three fifths.
constexpr std::uint16_t kWide = 2048;
constexpr std::uint16_t kMiddling = 1229;
constexpr char32_t kReplacement = 0xfffd;

std::uint16_t advance_of(char32_t code) {
  if (code >= 0x20 && code < 0x20 + kAscii.size()) return kAscii[code - 0x20];
  if (code >= 0xa0 && code < 0xa0 + kLatin.size()) return kLatin[code - 0xa0];
  if (code >= 0x390 && code < 0x390 + kGreek.size()) return kGreek[code - 0x390];
  const auto found =
      std::ranges::find_if(kOthers, [code](const Advance& other) { return other.code == code; });
  if (found != kOthers.end()) return found->width;
  return code >= 0x2e80 ? kWide : kMiddling;
}

void append_utf8(std::string& text, char32_t code) {
  const auto put = [&text](char32_t byte) { text.push_back(static_cast<char>(static_cast<unsigned char>(byte))); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xc0 | (code >> 6));
    put(0x80 | (code & 0x3f));
  } else if (code < 0x10000) {
    put(0xe0 | (code >> 12));
    put(0x80 | ((code >> 6) & 0x3f));
    put(0x80 | (code & 0x3f));
  } else {
    put(0xf0 | (code >> 18));
    put(0x80 | ((code >> 12) & 0x3f));
    put(0x80 | ((code >> 6) & 0x3f));
    put(0x80 | (code & 0x3f));
  }
}

/// The character that begins at `at`, which moves past it. Broken bytes become U+FFFD one by one.
char32_t next_character(std::string_view text, std::size_t& at) {
  const auto byte = [text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char lead = byte(at++);
  if (lead < 0x80) return lead;
  const std::size_t more = lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : 1;
  if (lead < 0xc2 || lead > 0xf4 || at + more > text.size()) return kReplacement;
  char32_t code = lead & (0x3fu >> more);
  for (std::size_t i = 0; i < more; ++i) {
    if ((byte(at + i) & 0xc0) != 0x80) return kReplacement;
    code = (code << 6) | (byte(at + i) & 0x3f);
  }
  constexpr std::array<char32_t, 4> least = {0, 0x80, 0x800, 0x10000};
  if (code < least[more] || code > 0x10ffff || (code >= 0xd800 && code < 0xe000)) return kReplacement;
  at += more;
  return code;
}

}  // namespace

std::u32string characters_of(std::string_view text) {
  std::u32string characters;
  for (std::size_t at = 0; at < text.size();) {
    const char32_t code = next_character(text, at);
    const bool control = code < 0x20 || (code >= 0x7f && code < 0xa0) || code == 0xfffe || code == 0xffff;
    characters.push_back(control ? U' ' : code);
  }
  return characters;
}

std::string utf8_of(std::u32string_view characters) {
  std::string text;
  for (const char32_t code : characters) append_utf8(text, code);
  return text;
}

std::string clean_text(std::string_view text) { return utf8_of(characters_of(text)); }

double text_width(std::string_view text, double size_pt) {
  double units = 0.0;
  for (const char32_t code : characters_of(text)) units += advance_of(code);
  return units / kUnitsPerEm * size_pt;
}

std::string xml_text(std::string_view text) {
  std::string safe;
  for (const char c : clean_text(text)) {
    switch (c) {
      case '&': safe += "&amp;"; break;
      case '<': safe += "&lt;"; break;
      case '>': safe += "&gt;"; break;
      case '"': safe += "&quot;"; break;
      case '\'': safe += "&#39;"; break;
      default: safe += c;
    }
  }
  return safe;
}

}  // namespace ringfall::plot
