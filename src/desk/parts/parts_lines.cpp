// SPDX-License-Identifier: GPL-3.0-or-later
// Words broken into lines. ImGui's own way breaks inside numbers ("-3." / "3").
#include <algorithm>
#include <array>

#include "desk/parts/parts.h"

namespace ringfall::desk {
namespace {

constexpr std::array<std::string_view, 9> kUnits = {"%", "s", "ms", "dB", "Hz", "kHz", "m", "yd", "sone"};

float wide(ImFont* font, std::string_view words) {
  return font->CalcTextSizeA(font->FontSize, 1e9F, 0.0F, words.data(), words.data() + words.size()).x;
}

/// "0.110 s," stays together.
bool is_unit_after(std::string_view word, std::string_view next) {
  if (word.empty() || word.back() < '0' || word.back() > '9') return false;
  while (!next.empty() && std::string_view(".,;:)").find(next.back()) != std::string_view::npos) next.remove_suffix(1);
  return std::ranges::find(kUnits, next) != kUnits.end();
}

/// The next word with the unit that belongs to it; taken off `rest`.
std::string_view take_word(std::string_view& rest) {
  std::size_t end = std::min(rest.find(' '), rest.size());
  if (end < rest.size()) {
    const std::size_t after = std::min(rest.find(' ', end + 1), rest.size());
    if (is_unit_after(rest.substr(0, end), rest.substr(end + 1, after - end - 1))) end = after;
  }
  const std::string_view word = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return word;
}

/// A word too long for a line, as a path can be, piece by piece; gives back how wide its last line is.
float add_long(ImFont* font, std::string_view word, float width, std::string& out) {
  float x = 0.0F;
  while (!word.empty()) {
    std::size_t bytes = 1;
    while (bytes < word.size() && (static_cast<unsigned char>(word[bytes]) & 0xC0U) == 0x80U) ++bytes;
    const float step = wide(font, word.substr(0, bytes));
    if (x > 0.0F && x + step > width) {
      out += '\n';
      x = 0.0F;
    }
    out += word.substr(0, bytes);
    x += step;
    word.remove_prefix(bytes);
  }
  return x;
}

}  // namespace

std::string broken(ImFont* font, std::string_view words, float width) {
  std::string out;
  const float space = wide(font, " ");
  while (true) {
    const std::size_t end = std::min(words.find('\n'), words.size());
    std::string_view rest = words.substr(0, end);
    float x = 0.0F;
    bool first = true;
    while (!rest.empty()) {
      const std::string_view word = take_word(rest);
      const float step = wide(font, word);
      if (!first && x + space + step > width) {
        out += '\n';
        first = true;
        x = 0.0F;
      }
      if (!first) {
        out += ' ';
        x += space;
      }
      if (step > width) {
        x = add_long(font, word, width, out);
      } else {
        out += word;
        x += step;
      }
      first = false;
    }
    if (end == words.size()) return out;
    out += '\n';
    words.remove_prefix(end + 1);
  }
}

void paragraph(const Stage& stage, ImFont* font, ImU32 colour, std::string_view words, float width) {
  line(stage, font, colour, broken(font, words, width > 0.0F ? width : ImGui::GetContentRegionAvail().x));
}

}  // namespace ringfall::desk
