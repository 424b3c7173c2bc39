// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/number_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string_view>

#include "base/csv.h"
#include "base/failure.h"
#include "shot/numbers.h"

namespace ringfall::compare {
namespace {

constexpr double kNoticed_db = 1.0;
constexpr int kMostDecimals = 6;

struct RatingColumn {
  std::string_view title;
  std::optional<double> Said::*rating;
};
// The second names are those of shots.csv in a folder that `ringfall export` wrote.
constexpr std::array kRatings = {RatingColumn{"said loud", &Said::loud}, RatingColumn{"said hum", &Said::hum},
                                 RatingColumn{"said ping", &Said::ping}, RatingColumn{"said feel", &Said::feel},
                                 RatingColumn{"loud", &Said::loud},      RatingColumn{"hum_said", &Said::hum},
                                 RatingColumn{"ping_said", &Said::ping}, RatingColumn{"feel", &Said::feel}};
constexpr std::array<std::string_view, 11> kOther = {"setup", "block", "shot",    "session", "drop",   "words",
                                                     "note",  "bow",   "dropped", "file",    "onset_s"};

bool is_value_column(std::string_view title) {
  return std::ranges::find(kOther, title) == kOther.end() &&
         std::ranges::find(kRatings, title, &RatingColumn::title) == kRatings.end();
}

/// Where the bracket opens that the title ends with; 0: it ends with none. "level (dB(A))": the outer one.
std::size_t bracket_of_unit(std::string_view title) {
  if (!title.ends_with(']') && !title.ends_with(')')) return 0;
  const char close = title.back();
  const char open = close == ']' ? '[' : '(';
  int depth = 0;
  for (std::size_t k = title.size(); k-- > 0;) {
    if (title[k] == close) ++depth;
    if (title[k] == open && --depth == 0) return k;
  }
  return 0;
}

/// "vibration [m/s2]" or "level (dB)" -> name and unit.
Column named_column(const std::string& title) {
  Column column;
  column.name = title;
  if (const auto* own = shot::find_number(title)) {
    column.unit = own->unit;
    column.decimals = own->decimals;
    column.noticeable = own->noticeable;
    return column;
  }
  const std::size_t open = bracket_of_unit(title);
  if (open == 0) return column;
  column.unit = title.substr(open + 1, title.size() - open - 2);
  column.name = title.substr(0, open);
  while (!column.name.empty() && column.name.back() == ' ') column.name.pop_back();
  if (column.unit == "dB" || column.unit.starts_with("dB(") || column.unit.starts_with("dB ")) column.noticeable = kNoticed_db;
  return column;
}

int decimals_written(std::string_view cell) {
  const auto mark = cell.find_first_of(".,");
  return mark == std::string_view::npos ? 0 : static_cast<int>(cell.size() - mark - 1);
}

std::optional<int> whole(const CsvTable& table, std::size_t row, const char* title) {
  const auto column = table.column(title);
  const auto value = column ? table.number(row, *column) : std::nullopt;
  if (!value) return std::nullopt;
  if (*value != std::floor(*value) || *value < 1.0 || *value > 1e6) {
    throw FileFailure(fmt::format("{}, line {}: '{}' must be a whole number from 1", table.name, table.lines[row], title));
  }
  return static_cast<int>(*value);
}

std::string text_in(const CsvTable& table, std::size_t row, const char* title) {
  const auto column = table.column(title);
  return column ? table.text(row, *column) : std::string();
}

Said said_in(const CsvTable& table, std::size_t row) {
  Said said;
  for (const RatingColumn& entry : kRatings) {
    const auto column = table.column(entry.title);
    if (!column || said.*entry.rating) continue;
    const auto value = table.number(row, *column);
    if (value && (*value < 0.0 || *value > 10.0)) {
      throw FileFailure(fmt::format("{}, line {}: '{}' is {} and must lie between 0 and 10", table.name, table.lines[row],
                                    entry.title, *value));
    }
    said.*entry.rating = value;
  }
  said.words = text_in(table, row, "words");
  return said;
}

/// A table with "1.234" beside "412,5" can't be read without a guess: one of the marks may stand between thousands.
void need_one_decimal_mark(const CsvTable& table, const std::vector<std::size_t>& places) {
  std::optional<std::size_t> point;
  std::optional<std::size_t> comma;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    for (const std::size_t place : places) {
      const std::string& cell = table.rows[row][place];
      if (cell.find('.') != std::string::npos) point = row;
      if (cell.find(',') != std::string::npos) comma = row;
    }
  }
  if (!point || !comma) return;
  throw FileFailure(fmt::format("{}: numbers have a point in line {} and a comma in line {}; write all decimals with one of them and no "
                                "mark between thousands",
                                table.name, table.lines[*point], table.lines[*comma]));
}

/// Something is in it, and nothing of it begins like a number.
bool holds_words_only(const CsvTable& table, std::size_t column) {
  bool anything = false;
  for (const auto& row : table.rows) {
    const auto first = row[column].find_first_not_of(" \t");
    if (first == std::string::npos) continue;
    anything = true;
    if (std::string_view("+-.0123456789").find(row[column][first]) != std::string_view::npos) return false;
  }
  return anything;
}

std::vector<std::size_t> read_columns(const CsvTable& table, Session& session, std::vector<std::string>& without_numbers) {
  std::vector<std::size_t> places;
  for (std::size_t k = 0; k < table.columns.size(); ++k) {
    if (!is_value_column(table.columns[k])) continue;
    Column column = named_column(table.columns[k]);
    if (column.name.empty()) throw FileFailure(fmt::format("{}: column {} has no name", table.name, k + 1));
    if (std::ranges::find(session.columns, column.name, &Column::name) != session.columns.end()) {
      throw FileFailure(fmt::format("{}: the column '{}' is there twice", table.name, column.name));
    }
    if (holds_words_only(table, k)) {
      without_numbers.push_back(column.name);
      continue;
    }
    if (shot::find_number(table.columns[k]) == nullptr) {
      int decimals = 0;
      for (const auto& row : table.rows) decimals = std::max(decimals, decimals_written(row[k]));
      column.decimals = std::min(kMostDecimals, decimals + 1);  // a mean knows a little more than a value
    }
    session.columns.push_back(std::move(column));
    places.push_back(k);
  }
  if (places.empty()) throw FileFailure(table.name + ": there is no column with a number to compare beside setup and block");
  need_one_decimal_mark(table, places);
  return places;
}

/// The block that a row belongs to, made when it is new. Without numbers a block is a run of one set-up.
SessionBlock& block_of(Session& session, const CsvTable& table, std::size_t row, const std::string& setup) {
  const int evening = whole(table, row, "session").value_or(1);
  const auto number = whole(table, row, "block");
  auto& blocks = session.blocks;
  if (number) {
    const auto found = std::ranges::find_if(blocks, [&](const auto& block) { return block.session == evening && block.block == *number; });
    if (found != blocks.end()) {
      if (found->setup == setup) return *found;
      throw FileFailure(fmt::format("{}, line {}: block {} is '{}' already; a block has one set-up", table.name,
                                    table.lines[row], *number, found->setup));
    }
  } else if (!blocks.empty() && blocks.back().setup == setup && blocks.back().session == evening) {
    return blocks.back();
  }
  SessionBlock block;
  block.session = evening;
  block.setup = setup;
  block.block = number.value_or(static_cast<int>(blocks.size()) + 1);
  block.file = fmt::format("block {}", block.block);
  blocks.push_back(std::move(block));
  return blocks.back();
}

}  // namespace

Session read_number_table(const std::string& path) {
  const CsvTable table = read_csv(path);
  const std::size_t setup = table.needed_column("setup");
  Session session;
  std::vector<std::string> without_numbers;
  const auto places = read_columns(table, session, without_numbers);
  std::set<std::string> bows;
  for (std::size_t row = 0; row < table.rows.size(); ++row) bows.insert(text_in(table, row, "bow"));
  const bool numbered = table.column("block") && table.column("shot");
  std::map<std::array<int, 3>, std::size_t> seen;
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    std::string name = table.text(row, setup);
    if (name.empty()) throw FileFailure(fmt::format("{}, line {}: the set-up is missing", table.name, table.lines[row]));
    // A set-up's name counts within its bow.
    if (bows.size() > 1) name = text_in(table, row, "bow") + ": " + name;
    SessionBlock& block = block_of(session, table, row, name);
    SessionShot entry{{}, said_in(table, row)};
    entry.shot.number =
        whole(table, row, "shot").value_or(static_cast<int>(block.shots.size() + block.dropped_shots.size()) + 1);
    const auto [first, fresh] = seen.try_emplace({block.session, block.block, entry.shot.number}, table.lines[row]);
    if (numbered && !fresh) {
      throw FileFailure(fmt::format("{}, line {}: shot {} of block {} is in line {} already; the same shot must not count twice",
                                    table.name, table.lines[row], entry.shot.number, block.block, first->second));
    }
    for (const std::size_t place : places) entry.values.push_back(table.number(row, place));
    for (const char* title : {"drop", "dropped"}) {
      if (entry.dropped.empty()) entry.dropped = text_in(table, row, title);
    }
    if (block.note.empty()) block.note = text_in(table, row, "note");
    if (entry.dropped.empty()) {
      block.shots.push_back(std::move(entry));
    } else {
      block.left_out.push_back(fmt::format("Shot {} of {} ('{}') is left out: {}.", entry.shot.number, block.file, name, entry.dropped));
      block.dropped_shots.push_back(std::move(entry));
    }
  }
  if (session.blocks.empty()) throw FileFailure(table.name + ": there is no shot in it; write one row a shot");
  for (const std::string& column : without_numbers) {
    session.blocks.front().findings.push_back({"column_without_numbers", Severity::note, {},
                                               fmt::format("The column '{}' holds no number and is not compared.", column)});
  }
  std::ranges::stable_sort(session.blocks, [](const auto& a, const auto& b) {
    return std::pair(a.session, a.block) < std::pair(b.session, b.block);
  });
  return session;
}

}  // namespace ringfall::compare
