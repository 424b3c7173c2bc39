// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/session.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "base/csv.h"
#include "base/failure.h"

namespace ringfall::compare {
namespace {

namespace fs = std::filesystem;

int whole_number(const CsvTable& table, std::size_t row, std::size_t column, int without) {
  const auto value = table.number(row, column);
  if (!value) return without;
  if (*value != std::floor(*value) || *value < 1.0 || *value > 1e6) {
    throw FileFailure(fmt::format("{}, line {}: '{}' must be a whole number from 1", table.name, table.lines[row],
                                  table.columns[column]));
  }
  return static_cast<int>(*value);
}

std::optional<double> rating(const CsvTable& table, std::size_t row, const char* title) {
  const auto column = table.column(title);
  if (!column) return std::nullopt;
  const auto value = table.number(row, *column);
  if (value && (*value < 0.0 || *value > 10.0)) {
    throw FileFailure(fmt::format("{}, line {}: the rating '{}' is {} and must lie between 0 and 10", table.name,
                                  table.lines[row], title, *value));
  }
  return value;
}

void read_blocks(const CsvTable& table, SessionPlan& plan) {
  const std::size_t file = table.needed_column("file");
  const std::size_t setup = table.needed_column("setup");
  const auto block = table.column("block");
  const auto note = table.column("note");
  const auto drop = table.column("drop");
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    SessionBlock entry;
    entry.file = table.text(row, file);
    entry.setup = table.text(row, setup);
    if (entry.file.empty() || entry.setup.empty()) {
      throw FileFailure(fmt::format("{}, line {}: file and setup must both be given", table.name, table.lines[row]));
    }
    if (std::ranges::find(plan.blocks, entry.file, &SessionBlock::file) != plan.blocks.end()) {
      throw FileFailure(fmt::format("{}, line {}: '{}' is listed twice; its shots would count twice. One line a recording",
                                    table.name, table.lines[row], entry.file));
    }
    entry.block = block ? whole_number(table, row, *block, static_cast<int>(row) + 1) : static_cast<int>(row) + 1;
    if (note) entry.note = table.text(row, *note);
    if (drop) entry.dropped = table.text(row, *drop);
    plan.blocks.push_back(std::move(entry));
  }
  if (plan.blocks.empty()) throw FileFailure(table.name + ": no set-up is listed; write one line a recording");
  std::ranges::stable_sort(plan.blocks, {}, &SessionBlock::block);
}

void read_comments(const CsvTable& table, SessionPlan& plan) {
  const std::size_t file = table.needed_column("file");
  const std::size_t shot = table.needed_column("shot");
  const auto words = table.column("words");
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    const std::string name = table.text(row, file);
    if (std::ranges::none_of(plan.blocks, [&](const SessionBlock& block) { return block.file == name; })) {
      throw FileFailure(fmt::format("{}, line {}: the recording '{}' is not in the table of set-ups", table.name,
                                    table.lines[row], name));
    }
    Said said{rating(table, row, "loud"), rating(table, row, "hum"), rating(table, row, "ping"),
              rating(table, row, "feel"), words ? table.text(row, *words) : std::string()};
    const int number = whole_number(table, row, shot, 1);
    if (!plan.said.emplace(std::pair{name, number}, std::move(said)).second) {
      throw FileFailure(fmt::format("{}, line {}: '{}', shot {} has a comment already", table.name, table.lines[row], name,
                                    number));
    }
  }
}

}  // namespace

std::vector<std::string> Session::setups() const {
  std::vector<std::string> names;
  for (const SessionBlock* block : kept()) {
    if (std::ranges::find(names, block->setup) == names.end()) names.push_back(block->setup);
  }
  return names;
}

std::vector<const SessionBlock*> Session::kept() const {
  std::vector<const SessionBlock*> counting;
  for (const SessionBlock& block : blocks) {
    if (block.dropped.empty()) counting.push_back(&block);
  }
  return counting;
}

const SetUpFacts* Session::facts_of(const std::string& setup) const {
  const auto found = std::ranges::find(setup_facts, setup, &SetUpFacts::name);
  return found == setup_facts.end() ? nullptr : &*found;
}

std::string sessions_text(const std::vector<int>& sessions) {
  std::string text;
  for (const int session : sessions) text += (text.empty() ? "" : ", ") + std::to_string(session);
  return (sessions.size() == 1 ? "session " : "sessions ") + text;
}

std::string SessionPlan::path_of(const SessionBlock& block) const {
  const fs::path file(block.file);
  return file.is_absolute() ? block.file : (fs::path(folder) / file).string();
}

SessionPlan read_session_plan(const std::string& source) {
  std::error_code failed;
  if (!fs::exists(source, failed)) throw FileFailure(source + ": there is no such logbook, folder or table; check the name");
  const bool folder = fs::is_directory(source);
  const fs::path table = folder ? fs::path(source) / "setups.csv" : fs::path(source);
  if (folder && !fs::exists(table)) {
    throw FileFailure(fmt::format("{}: there is no setups.csv in it; write one with the columns file, setup, block", source));
  }
  SessionPlan plan;
  plan.folder = table.parent_path().string();
  read_blocks(read_csv(table.string()), plan);
  const fs::path comments = table.parent_path() / "comments.csv";
  if (fs::exists(comments)) read_comments(read_csv(comments.string()), plan);
  return plan;
}

}  // namespace ringfall::compare
