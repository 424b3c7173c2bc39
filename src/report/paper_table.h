// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "report/document.h"

namespace ringfall::report {

/// A table's place on paper: columns as wide as their words want while there is room, else each at least as wide as its
/// longest word; cells wrapped into lines.
struct PaperTable {
  using Cell = std::vector<std::string>;  ///< lines
  std::vector<double> left_pt;            ///< of each column
  std::vector<double> width_pt;
  std::vector<Cell> head;
  std::vector<std::vector<Cell>> rows;

  /// Lines of the highest cell.
  static std::size_t lines_of(const std::vector<Cell>& row);
};

/// Lays a table out over `width_pt` in letters of `size_pt`. Tests: report.Paper.*
PaperTable paper_table(const Table& table, double width_pt, double size_pt);

}  // namespace ringfall::report
