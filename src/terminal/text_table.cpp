// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/text_table.h"

#include <algorithm>
#include <array>
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

std::vector<std::string> TextTable::lines(std::size_t indent) const {
  std::vector<std::size_t> widths;
  for (std::size_t k = 0; k < columns_.size(); ++k) {
    std::size_t width = std::max(width_of(columns_[k].head), width_of(columns_[k].unit));
    for (const auto& row : rows_) width = std::max(width, width_of(row[k]));
    widths.push_back(width);
  }
  const auto line = [&](auto&& cell) {
    std::string text(indent, ' ');
    for (std::size_t k = 0; k < columns_.size(); ++k) {
      text += (k == 0 ? "" : "  ") + padded(cell(k), widths[k], columns_[k].side);
    }
    text.erase(text.find_last_not_of(' ') + 1);
    return text + "\n";
  };
  std::vector<std::string> out;
  out.push_back(line([&](std::size_t k) -> const std::string& { return columns_[k].head; }));
  if (std::ranges::any_of(columns_, [](const Column& column) { return !column.unit.empty(); })) {
    out.push_back(line([&](std::size_t k) -> const std::string& { return columns_[k].unit; }));
  }
  for (const auto& row : rows_) out.push_back(line([&](std::size_t k) -> const std::string& { return row[k]; }));
  return out;
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
