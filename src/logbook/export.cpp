// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/export.h"

#include <fmt/format.h>

#include <stdlib.h>
#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <fstream>

#include "base/csv.h"
#include "base/failure.h"
#include "logbook/damage.h"
#include "logbook/export_names.h"
#include "logbook/migrations.h"
#include "logbook/schema_check.h"
#include "shot/numbers.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

constexpr const char* kReadMe =
    "Everything a logbook of Ringfall holds, as open files. SI units, times of day in UTC.\n\n"
    "shots.csv        one line a shot, for a spreadsheet; `ringfall import` does not read it\n"
    "sounds/          the sound of each shot, named by its number in the logbook\n"
    "tables/          the logbook's tables, value for value (docs/logbook.md); a blank cell is \"not said\"\n"
    "logbook.csv      the logbook's version\n\n"
    "ringfall import FOLDER LOGBOOK makes a logbook of it again.\n";

/// A file that is whole on the disk or a failure. Its folder is a new one of our own.
class TextFile {
 public:
  explicit TextFile(const fs::path& path) : path_(path.string()), file_(path, std::ios::binary) { need_good(); }
  void write(std::string_view text) { file_.write(text.data(), static_cast<std::streamsize>(text.size())); }
  void finish() {
    file_.close();
    need_good();
  }

 private:
  void need_good() const {
    if (!file_.fail()) return;
    throw FileFailure(path_ + ": the file can't be written; is the disk full, and may you write there?");
  }
  std::string path_;
  std::ofstream file_;
};

void write_file(const fs::path& path, std::string_view bytes) {
  TextFile file(path);
  file.write(bytes);
  file.finish();
}

/// A new folder beside `folder` that gets its name when all is in it, and is gone otherwise: half an export stands in nobody's way.
class NewFolder {
 public:
  explicit NewFolder(const std::string& folder) : folder_(fs::path(folder).has_filename() ? fs::path(folder) : fs::path(folder).parent_path()) {
    std::error_code failed;
    if (fs::exists(fs::symlink_status(folder_, failed)) && !(fs::is_directory(folder_, failed) && fs::is_empty(folder_, failed))) refuse_full();
    const fs::path above = folder_.parent_path().empty() ? fs::path(".") : folder_.parent_path();
    fs::create_directories(above, failed);
    std::string name = (above / ".ringfall-XXXXXX").string();
    if (failed || ::mkdtemp(name.data()) == nullptr) refuse_making(failed ? failed : std::error_code(errno, std::generic_category()));
    temporary_ = name;
    // As a folder made by hand would be: mkdtemp's is for nobody else.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    ::chmod(name.c_str(), 0777U & ~mask);
    for (const char* inner : {export_names::kTables, export_names::kSounds}) fs::create_directory(temporary_ / inner, failed);
    if (failed) refuse_making(failed);
  }
  ~NewFolder() {
    std::error_code ignored;
    if (!placed_) fs::remove_all(temporary_, ignored);
  }
  NewFolder(const NewFolder&) = delete;
  NewFolder& operator=(const NewFolder&) = delete;

  const fs::path& temporary() const { return temporary_; }
  void place() {
    // An empty folder of that name gives way, anything else does not (POSIX, rename).
    if (::rename(temporary_.c_str(), folder_.c_str()) != 0) {
      if (errno == EEXIST || errno == ENOTEMPTY || errno == ENOTDIR) refuse_full();
      refuse_making(std::error_code(errno, std::generic_category()));
    }
    placed_ = true;
  }

 private:
  [[noreturn]] void refuse_full() const {
    throw FileFailure(folder_.string() + ": there is something in it already, and nothing is written over; give a new folder");
  }
  [[noreturn]] void refuse_making(const std::error_code& why) const {
    throw FileFailure(fmt::format("{}: the folder can't be made ({})", folder_.string(), why.message()));
  }
  fs::path folder_;
  fs::path temporary_;
  bool placed_ = false;
};

/// One value as text that comes back exactly.
std::string exact_text(const Statement& row, int column) {
  switch (row.kind(column)) {
    case Statement::Kind::null: return "";
    case Statement::Kind::integer: return std::to_string(row.integer(column));
    case Statement::Kind::real: return fmt::format("{}", row.raw_real(column));
    case Statement::Kind::bytes: return row.text(column);
  }
  return "";
}

/// "1, 2": shot ids for a statement or a sentence.
std::string ids_text(const std::vector<std::int64_t>& ids) { return fmt::format("{}", fmt::join(ids, ", ")); }

/// `lost`: shots whose rows are left out, and what refers to them.
void write_table(const Database& database, const std::string& table, const fs::path& folder, const std::vector<std::int64_t>& lost) {
  std::vector<std::string> columns;
  Statement info = database.prepare("SELECT name FROM pragma_table_info(?) WHERE type <> 'BLOB' ORDER BY cid");
  info.with(table);
  while (info.step()) columns.push_back(info.text(0));
  TextFile file(folder / export_names::kTables / (table + ".csv"));
  std::string select;
  std::string head;
  for (const auto& column : columns) {
    select += fmt::format("{}\"{}\"", select.empty() ? "" : ", ", column);
    head += (head.empty() ? "" : ",") + column;
  }
  file.write(head + "\n");
  std::string where;
  if (!lost.empty() && table == "shot") where = fmt::format("WHERE id NOT IN ({})", ids_text(lost));
  if (!lost.empty() && std::ranges::find(columns, "shot") != columns.end()) {
    where = fmt::format("WHERE shot IS NULL OR shot NOT IN ({})", ids_text(lost));
  }
  Statement row = database.prepare(fmt::format("SELECT {} FROM \"{}\" {}", select, table, where));
  while (row.step()) {
    std::string line;
    for (std::size_t k = 0; k < columns.size(); ++k) {
      line += (k == 0 ? "" : ",") + csv_cell(exact_text(row, static_cast<int>(k)));
    }
    file.write(line + "\n");
  }
  file.finish();
}

std::string shots_table(const Logbook& logbook) {
  std::string out = "shot,session,bow,setup,block,file,onset_s,dropped,loud,hum_said,ping_said,feel,words";
  for (const auto& number : shot::numbers()) out += fmt::format(",{}", number.id);
  out += "\n";
  const auto cell = [](std::optional<double> value) { return value ? fmt::format(",{}", *value) : std::string(","); };
  for (const auto& block : logbook.blocks()) {
    for (const auto& kept : block.shots) {
      const Comment said = taken_together(kept.comments);
      const std::string& dropped = kept.dropped.empty() ? block.dropped : kept.dropped;
      out += fmt::format("{},{},{},{},{},{},{},{}", kept.id, block.session, csv_cell(block.bow), csv_cell(block.setup), block.number,
                         csv_cell(block.file), kept.shot.onset_s, csv_cell(dropped));
      out += cell(said.loud) + cell(said.hum) + cell(said.ping) + cell(said.feel) + "," + csv_cell(said.words);
      for (const auto& number : shot::numbers()) out += cell(number.of(kept.shot));
      out += "\n";
    }
  }
  return out;
}

}  // namespace

Exported export_folder(const Logbook& logbook, const std::string& folder, const std::function<bool(double)>& go_on) {
  NewFolder made(folder);
  const fs::path& place = made.temporary();
  const Database& database = logbook.database();
  Transaction reading(database, Transaction::Kind::read);
  Exported exported;
  exported.lost = unreadable_shots(database);
  if (exported.lost.empty()) {
    write_file(place / "README.txt", kReadMe);
    write_file(place / "shots.csv", shots_table(logbook));
    ++exported.files;
  } else {
    write_file(place / "README.txt", fmt::format("{}\nThe logbook is damaged. Not in here, since they can't be read: shots {}, with all that "
                                                 "was said and measured of them, and shots.csv.\n", kReadMe, ids_text(exported.lost)));
  }
  // By our own list: a stranger's file names tables as it likes.
  for (const auto& table : known_tables(migrations().back().version)) {
    write_table(database, table, place, exported.lost);
    ++exported.files;
  }
  const auto shots = static_cast<double>(database.integer("SELECT count(*) FROM shot"));
  Statement sound = database.prepare(fmt::format("SELECT id, coding, clip FROM shot WHERE id NOT IN ({}) ORDER BY id", ids_text(exported.lost)));
  while (sound.step()) {
    if (go_on && !go_on(static_cast<double>(exported.shots) / shots)) {
      exported = {};
      exported.stopped = true;
      return exported;
    }
    const std::string coding = sound.text(1);
    if (coding != "flac" && coding != "wav") throw Damage(database.path() + ": the logbook is damaged (the sound of a shot is neither FLAC nor WAV)");
    write_file(place / export_names::kSounds / export_names::sound_name(sound.integer(0), coding), sound.text(2));
    ++exported.shots;
  }
  // Last: a folder with it is whole.
  write_file(place / export_names::kVersionTable, fmt::format("version\n{}\n", database.integer("PRAGMA user_version")));
  exported.files += exported.shots + 2;
  made.place();
  return exported;
}

}  // namespace ringfall::logbook
