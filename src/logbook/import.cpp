// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <map>

#include "base/csv.h"
#include "base/failure.h"
#include "base/new_file.h"
#include "base/whole_file.h"
#include "logbook/export.h"
#include "logbook/export_names.h"
#include "logbook/migrations.h"
#include "logbook/schema_check.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

/// Of a sound: no shot's comes near it.
constexpr std::size_t kMostSoundBytes = std::size_t{1} << 27;
constexpr std::size_t kMostTableBytes = std::size_t{1} << 30;

CsvTable table_in(const fs::path& path) { return parse_csv(whole_file(path.string(), kMostTableBytes, Links::refused), path.string()); }

struct ColumnRule {
  std::string type;  ///< as declared: INTEGER, REAL, TEXT, BLOB
  bool needed = false;
};

std::map<std::string, ColumnRule> columns_of(const Database& database, const std::string& table) {
  std::map<std::string, ColumnRule> columns;
  // A primary key is needed too, whether its statement says so or not.
  Statement row = database.prepare("SELECT name, type, \"notnull\" OR pk > 0 FROM pragma_table_info(?)");
  row.with(table);
  while (row.step()) columns[row.text(0)] = {row.text(1), row.integer(2) != 0};
  return columns;
}

[[noreturn]] void refuse_cell(const CsvTable& table, std::size_t row, std::size_t column) {
  throw FileFailure(fmt::format("{}, line {}: '{}' can't be a value of {}; export the logbook again", table.name, table.lines[row],
                                table.rows[row][column], table.columns[column]));
}

template <typename Number>
Number exact_number(const CsvTable& table, std::size_t row, std::size_t column) {
  const std::string& text = table.rows[row][column];
  Number value{};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) refuse_cell(table, row, column);
  return value;
}

std::string bytes_of_file(const fs::path& path) {
  if (!fs::exists(fs::symlink_status(path))) throw FileFailure(path.string() + ": the sound of a shot is missing; export the logbook again");
  return whole_file(path.string(), kMostSoundBytes, Links::refused);
}

void bind_cell(Statement& statement, int place, const CsvTable& table, std::size_t row, std::size_t column, const ColumnRule& rule) {
  const std::string& text = table.rows[row][column];
  if (text.empty() && !rule.needed) return;  // what is not bound is NULL
  if (rule.type == "INTEGER") return statement.bind_one(place, exact_number<std::int64_t>(table, row, column));
  if (rule.type == "REAL") return statement.bind_one(place, exact_number<double>(table, row, column));
  if (!rule.type.empty()) return statement.bind_one(place, std::string_view(text));
  // SQLite's own table of ids declares no types: a name and a number.
  if (table.columns[column] == "seq") return statement.bind_one(place, exact_number<std::int64_t>(table, row, column));
  statement.bind_one(place, std::string_view(text));
}

void read_table(const Database& database, const std::string& name, const fs::path& folder) {
  const CsvTable table = table_in(folder / export_names::kTables / (name + ".csv"));
  const auto rules = columns_of(database, name);
  std::string columns;
  std::string marks;
  for (const auto& column : table.columns) {
    if (!rules.contains(column)) throw FileFailure(fmt::format("{}: a logbook has no column '{}' here", table.name, column));
    columns += fmt::format("{}\"{}\"", columns.empty() ? "" : ", ", column);
    marks += marks.empty() ? "?" : ", ?";
  }
  const bool sounds = name == "shot";
  const std::size_t id = sounds ? table.needed_column("id") : 0;
  const std::size_t coding = sounds ? table.needed_column("coding") : 0;
  Statement statement = database.prepare(fmt::format("INSERT INTO \"{}\" ({}{}) VALUES ({}{})", name, columns, sounds ? ", clip" : "",
                                                     marks, sounds ? ", ?" : ""));
  if (name == "sqlite_sequence") database.run("DELETE FROM sqlite_sequence");
  for (std::size_t row = 0; row < table.rows.size(); ++row) {
    statement.with();
    for (std::size_t k = 0; k < table.columns.size(); ++k) {
      bind_cell(statement, static_cast<int>(k) + 1, table, row, k, rules.at(table.columns[k]));
    }
    if (sounds) {
      const std::string file = export_names::sound_name(exact_number<std::int64_t>(table, row, id), table.rows[row][coding]);
      statement.bind_one(static_cast<int>(table.columns.size()) + 1, Blob{bytes_of_file(folder / export_names::kSounds / file)});
    }
    try {
      statement.run();
    } catch (const LogbookFailure& failure) {
      throw LogbookFailure(fmt::format("{}, line {}: {}", table.name, table.lines[row], failure.what()));
    }
  }
}

std::int64_t version_of_export(const fs::path& folder) {
  const fs::path file = folder / export_names::kVersionTable;
  std::error_code failed;
  if (!fs::is_directory(folder, failed)) throw FileFailure(folder.string() + ": there is no such folder; give one that `ringfall export` wrote");
  if (!fs::exists(file, failed)) {
    throw FileFailure(folder.string() + ": this is no export of a logbook, or one that was not finished; make it with `ringfall export`");
  }
  const CsvTable table = table_in(file);
  const std::size_t column = table.needed_column("version");
  if (table.rows.empty()) throw FileFailure(file.string() + ": it names no version; export the logbook again");
  const auto version = exact_number<std::int64_t>(table, 0, column);
  const std::int64_t newest = migrations().back().version;
  if (version >= 1 && version <= newest) return version;
  throw FileFailure(fmt::format("{}: it is of version {}, and this Ringfall knows versions up to {}; use the newer program",
                                folder.string(), version, newest));
}

void fill(const Database& database, const fs::path& folder, std::int64_t version) {
  migrate_new(database, migrations().first(static_cast<std::size_t>(version)));
  Transaction transaction(database);
  // Rows refer to rows of tables that come later; each reference must hold when all are in.
  database.run("PRAGMA defer_foreign_keys = ON");
  for (const auto& name : known_tables(version)) read_table(database, name, folder);
  transaction.commit();
}

[[noreturn]] void refuse_target(const std::string& path) {
  throw LogbookFailure(path + ": this file exists and is not written over; give another name for the logbook");
}

[[noreturn]] void refuse_content(const std::string& folder, const std::string& wrong) {
  throw LogbookFailure(fmt::format("{}: what it holds is damaged ({}), and no logbook is made of it; export the logbook again, or mend the "
                                   "table", folder, wrong));
}

}  // namespace

void import_folder(const std::string& folder, const std::string& path, const std::function<void(const Logbook&)>& whole) {
  const std::int64_t version = version_of_export(folder);
  std::error_code ignored;
  if (fs::exists(path, ignored)) refuse_target(path);
  // Under another name until it is whole: half an import must not pass for a logbook.
  NewFile file(path);
  struct Logs {
    const std::string& path;
    ~Logs() { remove_logs(path); }
  } const logs{file.temporary()};
  {
    const Database database(file.temporary(), Database::Access::just_made, path);
    fill(database, folder, version);
    migrate(database, migrations(), OldFile::not_kept);  // the export is there
  }
  {
    const Logbook made(Database(file.temporary(), Database::Access::existing, path));
    if (const auto wrong = made.what_is_wrong()) refuse_content(folder, *wrong);
    if (whole) whole(made);
  }
  if (!file.place_new()) refuse_target(path);
}

}  // namespace ringfall::logbook
