// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/paper_table.h"

#include <algorithm>
#include <numeric>

#include "plot/text_fit.h"
#include "plot/text_width.h"

namespace ringfall::report {
namespace {

constexpr double kGap_pt = 9.0;

struct Want {
  double least_pt = 0.0;  ///< of the longest word
  double most_pt = 0.0;   ///< of the whole text on one line
};

Want wish_of(const std::string& text, double size_pt, bool unbroken) {
  Want wish;
  wish.most_pt = plot::text_width(text, size_pt);
  if (unbroken) return {wish.most_pt, wish.most_pt};
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    wish.least_pt = std::max(wish.least_pt, plot::text_width(std::string_view(text).substr(at, end - at), size_pt));
    at = end + 1;
  }
  return wish;
}

/// Every column gets its least; what is left goes to those that want more, in proportion. Where even the least do not fit, all
/// shrink alike and words are shortened.
std::vector<double> shared_out(const std::vector<Want>& wishes, double room_pt) {
  double least = 0.0;
  double more = 0.0;
  for (const Want& wish : wishes) {
    least += wish.least_pt;
    more += wish.most_pt - wish.least_pt;
  }
  const double part = more > 0.0 ? std::clamp((room_pt - least) / more, 0.0, 1.0) : 0.0;
  const double shrink = least > room_pt ? room_pt / least : 1.0;
  std::vector<double> widths;
  for (const Want& wish : wishes) widths.push_back(shrink * (wish.least_pt + part * (wish.most_pt - wish.least_pt)));
  return widths;
}

}  // namespace

std::size_t PaperTable::lines_of(const std::vector<Cell>& row) {
  std::size_t most = 1;
  for (const Cell& cell : row) most = std::max(most, cell.size());
  return most;
}

PaperTable paper_table(const Table& table, double width_pt, double size_pt) {
  const std::size_t columns = table.columns.size();
  std::vector<Want> wishes(columns);
  const auto hear = [&](std::size_t k, const std::string& text, bool unbroken) {
    const Want wish = wish_of(text, size_pt, unbroken);
    wishes[k].least_pt = std::max(wishes[k].least_pt, wish.least_pt);
    wishes[k].most_pt = std::max(wishes[k].most_pt, wish.most_pt);
  };
  for (std::size_t k = 0; k < columns; ++k) {
    hear(k, table.columns[k].head, false);
    for (const auto& row : table.rows) hear(k, row[k], table.columns[k].number);
    // A hair more, so that what fits exactly is not broken by rounding.
    wishes[k].least_pt += 0.01;
    wishes[k].most_pt += 0.02;
  }
  PaperTable laid;
  laid.width_pt = shared_out(wishes, width_pt - kGap_pt * static_cast<double>(columns - 1));
  double left = 0.0;
  for (const double width : laid.width_pt) {
    laid.left_pt.push_back(left);
    left += width + kGap_pt;
  }
  constexpr std::size_t kMostLines = 40;
  const auto cell = [&](std::size_t k, const std::string& text) {
    return plot::wrapped(text, laid.width_pt[k], size_pt, kMostLines, plot::text_width);
  };
  for (std::size_t k = 0; k < columns; ++k) laid.head.push_back(cell(k, table.columns[k].head));
  for (const auto& row : table.rows) {
    std::vector<PaperTable::Cell> cells;
    for (std::size_t k = 0; k < columns; ++k) cells.push_back(cell(k, row[k]));
    laid.rows.push_back(std::move(cells));
  }
  return laid;
}

}  // namespace ringfall::report
