// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/text_fit.h"

#include "plot/text_width.h"

namespace ringfall::plot {
namespace {

constexpr const char* kEllipsis = "\xe2\x80\xa6";

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : clean_text(text) + " ") {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  return words;
}

}  // namespace

std::string shortened(std::string_view text, double width_pt, double size_pt, const Measure& measure) {
  std::string whole = clean_text(text);
  if (measure(whole, size_pt) <= width_pt) return whole;
  std::u32string characters = characters_of(text);
  while (!characters.empty()) {
    characters.pop_back();
    while (!characters.empty() && characters.back() == U' ') characters.pop_back();
    std::string shorter = utf8_of(characters) + kEllipsis;
    if (measure(shorter, size_pt) <= width_pt) return characters.empty() ? std::string() : shorter;
  }
  return {};
}

std::vector<std::string> wrapped(std::string_view text, double width_pt, double size_pt, std::size_t most_lines,
                                 const Measure& measure) {
  std::vector<std::string> lines;
  for (const std::string& word : words_of(text)) {
    if (!lines.empty()) {
      const std::string longer = lines.back() + " " + word;
      // On the last line all the rest is gathered, to be shortened below.
      if (lines.size() == most_lines || measure(longer, size_pt) <= width_pt) {
        lines.back() = longer;
        continue;
      }
    }
    lines.push_back(word);
  }
  for (std::string& line : lines) line = shortened(line, width_pt, size_pt, measure);
  return lines;
}

}  // namespace ringfall::plot
