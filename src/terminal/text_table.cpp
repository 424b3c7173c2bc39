// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/text_table.h"

#include <algorithm>
#include <array>
#include <numeric>
#include <sstream>

#include "base/check.h"

namespace ringfall::terminal {
namespace {

std::size_t width_of(const std::string& text) {
  return static_cast<std::size_t>(std::ranges::count_if(
      text, [](char letter) { return (static_cast<unsigned char>(letter) & 0xC0U) != 0x80U; }));
}

/// Does `unit` belong to the number before it, so that no line may end between the two?
bool belongs_to_number(const std::string& before, const std::string& unit) {
  static constexpr std::array kUnits = {"ms", "s", "Hz", "kHz", "dB", "dB(A)", "m", "cm", "mm", "g", "kg", "sone", "acum", "%"};
  if (before.empty() || before.back() < '0' || before.back() > '9') return false;
  const std::string bare = unit.substr(0, unit.find_last_not_of(".,;:)") + 1);
  return std::ranges::any_of(kUnits, [&](const char* known) { return bare == known || unit == known; });
}

std::string padded(const std::string& text, std::size_t width, TextTable::Side side) {
  const std::string blanks(width - width_of(text), ' ');
  return side == TextTable::Side::left ? text + blanks : blanks + text;
}

}  // namespace

void TextTable::add_column(std::string head, std::string unit, Side side) {
  columns_.push_back({std::move(head), std::move(unit), side});
}

void TextTable::add_row(std::vector<std::string> cells) {
  check(cells.size() == columns_.size(), "a row has a cell for every column");
  rows_.push_back(std::move(cells));
}

std::size_t TextTable::width_of_column(std::size_t column) const {
  std::size_t width = std::max(width_of(columns_[column].head), width_of(columns_[column].unit));
  for (const auto& row : rows_) width = std::max(width, width_of(row[column]));
  return width;
}

TextTable::Part TextTable::part_of(const std::vector<std::size_t>& shown, std::size_t indent) const {
  const auto line = [&](auto&& cell) {
    std::string text(indent, ' ');
    for (const std::size_t k : shown) {
      text += (k == shown.front() ? "" : "  ") + padded(cell(k), width_of_column(k), columns_[k].side);
    }
    text.erase(text.find_last_not_of(' ') + 1);
    return text + "\n";
  };
  Part part;
  part.lines.push_back(line([&](std::size_t k) -> const std::string& { return columns_[k].head; }));
  if (std::ranges::any_of(columns_, [](const Column& column) { return !column.unit.empty(); })) {
    part.lines.push_back(line([&](std::size_t k) -> const std::string& { return columns_[k].unit; }));
  }
  part.heads = part.lines.size();
  for (const auto& row : rows_) part.lines.push_back(line([&](std::size_t k) -> const std::string& { return row[k]; }));
  return part;
}

std::vector<std::string> TextTable::lines(std::size_t indent) const {
  std::vector<std::size_t> all(columns_.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  return part_of(all, indent).lines;
}

std::vector<TextTable::Part> TextTable::parts(std::size_t indent, std::size_t width) const {
  std::vector<Part> all;
  std::vector<std::size_t> shown = {0};
  std::size_t taken = indent + width_of_column(0);
  for (std::size_t k = 1; k < columns_.size(); ++k) {
    const std::size_t wide = width_of_column(k) + 2;
    if (taken + wide > width && shown.size() > 1) {
      all.push_back(part_of(shown, indent));
      shown = {0};
      taken = indent + width_of_column(0);
    }
    shown.push_back(k);
    taken += wide;
  }
  all.push_back(part_of(shown, indent));
  return all;
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
  std::istringstream words(text);
  std::string out;
  std::string line;
  std::vector<std::string> pieces;
  for (std::string word; words >> word;) {
    if (!pieces.empty() && belongs_to_number(pieces.back(), word)) {
      pieces.back() += " " + word;
    } else {
      pieces.push_back(word);
    }
  }
  for (const std::string& word : pieces) {
    if (!line.empty() && width_of(line) + 1 + width_of(word) > width) {
      out += line + "\n" + std::string(indent, ' ');
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  return out + line;
}

}  // namespace ringfall::terminal
