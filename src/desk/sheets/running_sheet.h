// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/sheets/book_sheet.h"
#include "plot/figure.h"
#include "shot/numbers.h"

namespace ringfall::desk {

/// The numbers shown large at the range.
struct BigFigure {
  const char* id;
  const char* word;
  const char* unit;
  int decimals;  ///< -1: as elsewhere
};
inline constexpr std::array kBigFigures = {BigFigure{"hum", "hum", "of 10", -1}, BigFigure{"ping", "ping", "of 10", -1},
                                           BigFigure{"loudness_sone", "loudness", "sone", -1}, BigFigure{"late_s", "ring-down", "s", 2}};
using BigWords = std::array<std::string, kBigFigures.size()>;
BigWords big_words(const shot::Shot& shot);

/// A block while it is shot: what its shots said, and where they lie against the baseline's of the same session.
struct RunningSheet {
  struct Row {
    std::int64_t shot = 0;
    BigWords words;       ///< "?": hidden until words are in
    std::string dropped;
  };
  std::uint64_t number = 0;          ///< tells one sheet from the next
  std::int64_t block = 0;
  std::string setup;
  std::vector<Row> rows;             ///< those measured, in shooting order
  std::optional<plot::Figure> dots;  ///< nullopt: nothing can be shown
};

/// What makes one running sheet another than the last.
struct RunningQuestion {
  int revision = -1;
  std::int64_t block = 0;
  std::string number;
  bool words_first = false;
  bool operator==(const RunningQuestion&) const = default;
};

/// Shots whose numbers are hidden are in no picture. Tests: desk.Running.*
std::shared_ptr<const RunningSheet> running_sheet(const BookSheet& book, const RunningQuestion& question, std::uint64_t number);

}  // namespace ringfall::desk
