// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ringfall {

/// Without the blanks and tabs around it.
std::string trimmed(std::string_view text);

/// A table of texts with named columns (RFC 4180: comma, quotes doubled inside quotes, CRLF or LF; a UTF-8 byte order mark is
/// skipped). A file whose header line holds semicolons and no comma is read with semicolons, as spreadsheets of many
/// countries write it; one with neither but tabs, with tabs.
struct CsvTable {
  std::string name;                            ///< of the file, for messages
  std::vector<std::string> columns;            ///< blanks around names taken off
  std::vector<std::vector<std::string>> rows;  ///< each as long as `columns`
  std::vector<std::size_t> lines;              ///< line of the file each row starts on, from 1

  std::optional<std::size_t> column(std::string_view title) const;
  /// The column's index; FileFailure naming the file, the column and those there are.
  std::size_t needed_column(std::string_view title) const;
  /// The cell without the blanks and tabs around it: for names and words that a person typed.
  std::string text(std::size_t row, std::size_t column) const { return trimmed(rows[row][column]); }
  /// The cell as a number; nullopt when blank, "-" or "n/a". Both "1.5" and "1,5" are read. FileFailure names file, line and column
  /// when it is no finite number.
  std::optional<double> number(std::size_t row, std::size_t column) const;
};

/// Reads a table from text. FileFailure: no header, no UTF-8 (UTF-16 is named), a row with more cells than columns, a quote that never closes.
CsvTable parse_csv(std::string_view text, const std::string& name);
/// Reads a table from disk. FileFailure as parse_csv, and when the file can't be read.
CsvTable read_csv(const std::string& path);

/// A cell as it must be written: quoted when it holds a comma, quote or line end. A text (no number) that begins with = + - @ ' tab or
/// carriage return gets an apostrophe before it, or a spreadsheet would take it for a formula (common practice, no source);
/// parse_csv() takes it off again.
std::string csv_cell(std::string_view text);

}  // namespace ringfall
