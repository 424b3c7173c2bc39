// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <filesystem>

#include "base/failure.h"
#include "base/whole_file.h"

namespace ringfall {

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t") - first + 1));
}

namespace {

char separator_of(std::string_view text) {
  const std::string_view header = text.substr(0, text.find_first_of("\r\n"));
  for (const char separator : {',', ';', '\t'}) {
    if (header.find(separator) != std::string_view::npos) return separator;
  }
  return ',';
}

/// How people write "no value" into a cell.
bool says_nothing(std::string_view cell) {
  static constexpr std::string_view kNothing[] = {"", "-", "--", "n/a", "na", "nan", "null"};
  std::string small(cell);
  std::ranges::transform(small, small.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return std::ranges::find(kNothing, small) != std::end(kNothing);
}

/// What a spreadsheet takes for the beginning of a formula, and the apostrophe that keeps it from that.
bool begins_formula(std::string_view text) { return !text.empty() && std::string_view("=+-@\t\r'").find(text.front()) != std::string_view::npos; }

bool is_number(std::string_view text) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size();
}

bool needs_apostrophe(std::string_view text) { return begins_formula(text) && !is_number(text); }

/// A cell as csv_cell() was given it.
void take_apostrophe_off(std::string& cell) {
  if (cell.starts_with('\'') && needs_apostrophe(std::string_view(cell).substr(1))) cell.erase(0, 1);
}

std::string csv_cell_as_it_is(std::string_view text) {
  if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
  std::string out = "\"";
  for (const char letter : text) {
    if (letter == '"') out += '"';
    out += letter;
  }
  return out + "\"";
}

/// Cuts one record off the front of `text`; counts the lines it spans.
std::vector<std::string> take_record(std::string_view& text, char separator, std::size_t& line,
                                     const std::string& name) {
  std::vector<std::string> cells(1);
  const std::size_t first_line = line;
  bool quoted = false;
  std::size_t n = 0;
  for (; n < text.size(); ++n) {
    const char letter = text[n];
    if (letter == '\n') ++line;
    if (quoted) {
      if (letter != '"') {
        cells.back() += letter;
      } else if (n + 1 < text.size() && text[n + 1] == '"') {
        cells.back() += '"';
        ++n;
      } else {
        quoted = false;
      }
    } else if (letter == '"' && trimmed(cells.back()).empty()) {
      cells.back().clear();
      quoted = true;
    } else if (letter == separator) {
      cells.emplace_back();
    } else if (letter == '\n') {
      ++n;
      break;
    } else if (letter != '\r') {
      cells.back() += letter;
    }
  }
  if (quoted) {
    throw FileFailure(fmt::format("{}, line {}: a quote is opened and never closed", name, first_line));
  }
  text.remove_prefix(n);
  std::ranges::for_each(cells, take_apostrophe_off);
  return cells;
}

}  // namespace

std::optional<std::size_t> CsvTable::column(std::string_view title) const {
  const auto found = std::ranges::find(columns, title);
  if (found == columns.end()) return std::nullopt;
  return static_cast<std::size_t>(found - columns.begin());
}

std::size_t CsvTable::needed_column(std::string_view title) const {
  if (const auto found = column(title)) return *found;
  const auto small = [](std::string text) {
    std::ranges::transform(text, text.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return text;
  };
  const auto other = std::ranges::find_if(columns, [&](const auto& one) { return small(one) == title; });
  if (other != columns.end()) {
    throw FileFailure(fmt::format("{}: the column '{}' is called '{}' here; names of columns are written in small letters", name, title, *other));
  }
  std::string have;
  for (const auto& one : columns) have += (have.empty() ? "" : ", ") + one;
  throw FileFailure(fmt::format("{}: the column '{}' is missing; there are: {}", name, title, have));
}

std::optional<double> CsvTable::number(std::size_t row, std::size_t column) const {
  std::string text = trimmed(rows[row][column]);
  if (says_nothing(text)) return std::nullopt;
  std::ranges::replace(text, ',', '.');
  const char* begin = text.data() + (text.front() == '+' ? 1 : 0);
  double value = 0.0;
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) {
    throw FileFailure(fmt::format("{}, line {}, column '{}': '{}' is not a number; leave the cell empty when there is none", name,
                                  lines[row], columns[column], rows[row][column]));
  }
  return value;
}

CsvTable parse_csv(std::string_view text, const std::string& name) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.starts_with(kByteOrderMark)) text.remove_prefix(kByteOrderMark.size());
  if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF") || text.substr(0, 64).find('\0') != std::string_view::npos) {
    throw FileFailure(name + ": this is UTF-16 text or no text at all; save the table as \"CSV UTF-8\"");
  }
  CsvTable table;
  table.name = name;
  const char separator = separator_of(text);
  std::size_t line = 1;
  while (!text.empty()) {
    const std::size_t first_line = line;
    auto cells = take_record(text, separator, line, name);
    if (cells.size() == 1 && trimmed(cells[0]).empty()) continue;
    if (table.columns.empty()) {
      for (auto& cell : cells) table.columns.push_back(trimmed(cell));
      continue;
    }
    if (cells.size() > table.columns.size()) {
      throw FileFailure(fmt::format("{}, line {}: {} cells, but the header names {} columns", name, first_line,
                                    cells.size(), table.columns.size()));
    }
    cells.resize(table.columns.size());
    table.rows.push_back(std::move(cells));
    table.lines.push_back(first_line);
  }
  if (table.columns.empty()) {
    throw FileFailure(fmt::format("{}: the table is empty; its first line must name the columns", name));
  }
  return table;
}

CsvTable read_csv(const std::string& path) {
  std::error_code unknown;
  if (std::filesystem::is_directory(path, unknown)) throw FileFailure(path + ": this is a folder, not a table");
  constexpr std::size_t kMostBytes = std::size_t{1} << 28;
  return parse_csv(whole_file(path, kMostBytes), path);
}

std::string csv_cell(std::string_view text) {
  if (needs_apostrophe(text)) return csv_cell_as_it_is("'" + std::string(text));
  return csv_cell_as_it_is(text);
}

}  // namespace ringfall
