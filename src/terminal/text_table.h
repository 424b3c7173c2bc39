// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace ringfall::terminal {

/// A table of words and numbers for a terminal: columns as wide as their widest cell, two spaces between, numbers to the
/// right. Cells may hold UTF-8; width counts code points.
class TextTable {
 public:
  enum class Side { left, right };

  /// A column with up to two header lines ("exposure", "dB(A)").
  void add_column(std::string head, std::string unit, Side side = Side::right);
  /// As many cells as columns.
  void add_row(std::vector<std::string> cells);
  /// Header lines first; every line indented by `indent` spaces and ended by a newline, without blanks at its end.
  std::vector<std::string> lines(std::size_t indent) const;

  /// The same in at most `width` columns: what does not fit comes in tables below, each led by the first column. `heads`: how many lines of
  /// each are header lines, for their look; a column wider than all of it stays as it is.
  struct Part {
    std::vector<std::string> lines;
    std::size_t heads = 0;
  };
  std::vector<Part> parts(std::size_t indent, std::size_t width) const;

 private:
  struct Column {
    std::string head;
    std::string unit;
    Side side;
  };
  Part part_of(const std::vector<std::size_t>& shown, std::size_t indent) const;
  std::size_t width_of_column(std::size_t column) const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

/// Breaks a sentence into lines of at most `width` code points at blanks, each after the first indented.
std::string wrapped(const std::string& text, std::size_t width, std::size_t indent);

}  // namespace ringfall::terminal
