// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "base/csv.h"
#include "base/failure.h"
#include "logbook/export.h"
#include "logbook/export_names.h"
#include "logbook/migrations.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

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
  std::ifstream file(path, std::ios::binary);
  if (!file) throw FileFailure(path.string() + ": the sound of a shot is missing; export the logbook again");
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
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
  const CsvTable table = read_csv((folder / export_names::kTables / (name + ".csv")).string());
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
  const CsvTable table = read_csv(file.string());
  const std::size_t column = table.needed_column("version");
  if (table.rows.empty()) throw FileFailure(file.string() + ": it names no version; export the logbook again");
  const auto version = exact_number<std::int64_t>(table, 0, column);
  const std::int64_t newest = migrations().back().version;
  if (version >= 1 && version <= newest) return version;
  throw FileFailure(fmt::format("{}: it is of version {}, and this Ringfall knows versions up to {}; use the newer program",
                                folder.string(), version, newest));
}

void fill(const Database& database, const fs::path& folder, std::int64_t version) {
  migrate(database, migrations().first(static_cast<std::size_t>(version)));
  std::vector<std::string> names;
  Statement table = database.prepare(export_names::kTablesInOrder);
  while (table.step()) names.push_back(table.text(0));
  Transaction transaction(database);
  // Rows refer to rows of tables that come later; each reference must hold when all are in.
  database.run("PRAGMA defer_foreign_keys = ON");
  for (const auto& name : names) read_table(database, name, folder);
  transaction.commit();
}

/// A new file beside `path` that is taken away again, unless it gets that name. Several imports into one name each have their own.
class UnfinishedFile {
 public:
  explicit UnfinishedFile(const std::string& path) : name_(path + ".import") {
    for (int k = 2; !make_new_file(name_); ++k) name_ = fmt::format("{}.import-{}", path, k);
  }
  ~UnfinishedFile() {
    if (!placed_) remove_file(name_);
  }
  UnfinishedFile(const UnfinishedFile&) = delete;
  UnfinishedFile& operator=(const UnfinishedFile&) = delete;

  const std::string& name() const { return name_; }
  /// Gives it its name; false: another program was first. The name is taken in one step, so that nothing is written over.
  bool place(const std::string& path) {
    if (!make_new_file(path)) return false;
    std::error_code failed;
    fs::rename(name_, path, failed);
    if (failed) {
      remove_file(path);
      throw LogbookFailure(fmt::format("{}: the logbook can't get this name ({}); try another one", path, failed.message()));
    }
    placed_ = true;
    return true;
  }

 private:
  std::string name_;
  bool placed_ = false;
};

[[noreturn]] void refuse_target(const std::string& path) {
  throw LogbookFailure(path + ": this file exists and is not written over; give another name for the logbook");
}

}  // namespace

void import_folder(const std::string& folder, const std::string& path) {
  const std::int64_t version = version_of_export(folder);
  std::error_code ignored;
  if (fs::exists(path, ignored)) refuse_target(path);
  // Under another name until it is whole: half an import must not pass for a logbook.
  UnfinishedFile unfinished(path);
  {
    const Database database(unfinished.name(), Database::Access::just_made);
    fill(database, folder, version);
    migrate(database, migrations(), OldFile::not_kept);  // the export is there
  }
  if (const auto wrong = Logbook(unfinished.name()).what_is_wrong()) {
    throw LogbookFailure(fmt::format("{}: what it holds is damaged ({}), and no logbook is made of it; export the logbook again, or mend the "
                                     "table", folder, *wrong));
  }
  if (!unfinished.place(path)) refuse_target(path);
}

}  // namespace ringfall::logbook
