// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/database.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cmath>
#include <filesystem>
#include <tuple>

#include "base/check.h"
#include "base/failure.h"
#include "base/new_file.h"

namespace ringfall::logbook {
namespace {

constexpr int kPatience_ms = 10000;
/// No sound of a shot comes near it.
constexpr int kMostValueBytes = 1 << 28;
constexpr double kLargestReal = 1e12;
constexpr std::int64_t kLargestInteger = std::int64_t{1} << 53;

/// The kind of rule that an entry breaks; SQLite's own words name its tables and columns, which say nothing to a person.
const char* broken_rule(int code) {
  switch (code) {
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
    case SQLITE_CONSTRAINT_ROWID: return "one of this name or number is there already";
    case SQLITE_CONSTRAINT_FOREIGNKEY: return "it refers to something that is not there, or something refers to it";
    case SQLITE_CONSTRAINT_NOTNULL: return "something that must be said is missing";
    default: return "a value in it can't be";
  }
}

/// What is wrong and what to do, for the kinds of failure a person can do something about.
std::string complaint(int code, const char* said) {
  switch (code & 0xFF) {
    case SQLITE_NOTADB: return "this is no logbook; give a file that `ringfall start` made";
    case SQLITE_CORRUPT:
      return fmt::format("the logbook is damaged ({}); keep this file as it is and go on with your last copy of it", said);
    case SQLITE_READONLY: return "the logbook may not be written; change its permissions or copy it to a folder of yours";
    case SQLITE_FULL: return "the disk is full; make room and try again (what was kept before is safe)";
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return "another program has been writing to the logbook for long; let it finish and try again";
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_AUTH: return "the logbook can't be opened; is it there, and may you write to its folder?";
    case SQLITE_CONSTRAINT:
      // A trigger's words are ours.
      if (code == SQLITE_CONSTRAINT_TRIGGER) return fmt::format("the logbook refuses this entry ({})", said);
      return std::string("the logbook refuses this entry: ") + broken_rule(code);
    default: return fmt::format("the logbook can't be read or written ({}); check the disk and try again", said);
  }
}

/// Names that no file can have.
void refuse_name(const std::string& path) {
  if (path.empty()) throw RequestFailure("the name of the logbook is empty; give its file");
  std::error_code failed;
  std::ignore = std::filesystem::exists(path, failed);
  if (failed && failed != std::errc::no_such_file_or_directory && failed != std::errc::permission_denied) {
    throw LogbookFailure(fmt::format("{}: no logbook can have this name ({})", path, failed.message()));
  }
}

void need_readable(const std::string& path) {
  if (::access(path.c_str(), R_OK) == 0) return;
  if (errno == EACCES) {
    throw LogbookFailure(fmt::format("{}: you may not read this file or look into its folder; change its permissions, or ask whose it "
                                     "is for a copy", path));
  }
  throw LogbookFailure(fmt::format("{}: there is no such logbook; make one with `ringfall start`", path));
}

bool may_write(const std::filesystem::path& path) { return ::access(path.empty() ? "." : path.c_str(), W_OK) == 0; }

/// How to open a file beside which nothing may be written: SQLite can make no write-ahead log there, and wants one even for reading
/// (its documentation, "Uniform Resource Identifiers" 3.3 and "Write-Ahead Logging" 5). Without a log nobody writes, and the file
/// is taken as it is; a writer's log is read too. nullopt: it can be opened for writing.
std::optional<std::string> sealed_name(const std::string& path) {
  if (may_write(std::filesystem::path(path).parent_path())) return std::nullopt;
  std::error_code failed;
  const auto log_bytes = std::filesystem::file_size(path + "-wal", failed);
  const bool log = !failed && log_bytes > 0;
  if (log && may_write(path)) return std::nullopt;
  std::string uri = "file:";
  for (const char letter : std::filesystem::absolute(path).string()) {
    const bool plain = letter != '%' && letter != '?' && letter != '#';
    uri += plain ? std::string(1, letter) : fmt::format("%{:02X}", static_cast<unsigned char>(letter));
  }
  return uri + (log ? "?mode=ro" : "?immutable=1");
}

}  // namespace

void Statement::Finalize::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }

Statement::Statement(const Database& database, std::string_view sql) : database_(&database) {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v2(database.connection_.get(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  statement_.reset(statement);
  if (code != SQLITE_OK) database.fail(code);
}

void Statement::reset() {
  sqlite3_reset(statement_.get());
  sqlite3_clear_bindings(statement_.get());
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) database_->fail(code);
  sqlite3_reset(statement_.get());  // ends its read transaction
  return false;
}

void Statement::bind(int place, std::int64_t value) {
  check(sqlite3_bind_int64(statement_.get(), place, value) == SQLITE_OK, "a statement has this parameter");
}

void Statement::bind(int place, double value) {
  if (!std::isfinite(value)) {
    throw LogbookFailure(fmt::format("{}: the logbook refuses this entry (a value is no finite number)", database_->path()));
  }
  check(sqlite3_bind_double(statement_.get(), place, value) == SQLITE_OK, "a statement has this parameter");
}

void Statement::bind(int place, std::string_view value) {
  // A null pointer would bind NULL; an empty text is a text.
  const char* text = value.empty() ? "" : value.data();
  const int code = sqlite3_bind_text64(statement_.get(), place, text, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
  if (code != SQLITE_OK) database_->fail(code);
}

void Statement::bind(int place, Blob value) {
  const int code = sqlite3_bind_blob64(statement_.get(), place, value.bytes.data(), value.bytes.size(), SQLITE_TRANSIENT);
  if (code != SQLITE_OK) database_->fail(code);
}

Statement::Kind Statement::kind(int column) const {
  switch (sqlite3_column_type(statement_.get(), column)) {
    case SQLITE_NULL: return Kind::null;
    case SQLITE_INTEGER: return Kind::integer;
    case SQLITE_FLOAT: return Kind::real;
    default: return Kind::bytes;
  }
}

std::int64_t Statement::integer(int column) const {
  const std::int64_t value = sqlite3_column_int64(statement_.get(), column);
  if (value < -kLargestInteger || value > kLargestInteger) refuse_value(column);
  return value;
}

void Statement::refuse_value(int column) const {
  throw Damage(fmt::format("{}: the logbook is damaged (its '{}' can't be {}); keep this file as it is and go on with your last copy of it",
                           database_->path(), sqlite3_column_name(statement_.get(), column), text(column)));
}

std::optional<std::int64_t> Statement::maybe_integer(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return integer(column);
}

double Statement::real(int column) const {
  const double value = sqlite3_column_double(statement_.get(), column);
  if (!(std::abs(value) <= kLargestReal)) refuse_value(column);
  return value;
}

double Statement::raw_real(int column) const { return sqlite3_column_double(statement_.get(), column); }

std::optional<double> Statement::maybe_real(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return real(column);
}

std::string Statement::text(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
  const int size = sqlite3_column_bytes(statement_.get(), column);
  return bytes ? std::string(bytes, static_cast<std::size_t>(size)) : std::string();
}

void Database::Close::operator()(sqlite3* connection) const { sqlite3_close_v2(connection); }

Database::Database(const std::string& file, Access access, const std::string& called) : path_(called.empty() ? file : called) {
  if (access != Access::in_memory) refuse_name(file);
  if (access == Access::existing) need_readable(file);
  if (access == Access::existing && !is_sqlite_file(file)) fail(SQLITE_NOTADB);
  const auto sealed = access == Access::existing ? sealed_name(file) : std::nullopt;
  sqlite3* connection = nullptr;
  const int code = sqlite3_open_v2(sealed.value_or(file).c_str(), &connection,
                                   sealed ? SQLITE_OPEN_READONLY | SQLITE_OPEN_URI : SQLITE_OPEN_READWRITE, nullptr);
  connection_.reset(connection);
  if (code != SQLITE_OK) {
    fail(code);
  }
  sqlite3_extended_result_codes(connection, 1);
  sqlite3_busy_timeout(connection, kPatience_ms);
  sqlite3_db_config(connection, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  sqlite3_db_config(connection, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
  sqlite3_limit(connection, SQLITE_LIMIT_LENGTH, kMostValueBytes);
  run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA cell_size_check = ON");
}

bool Database::read_only() const { return sqlite3_db_readonly(connection_.get(), "main") == 1; }

void Database::run(const std::string& sql) const {
  const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

void Database::use_write_ahead_log() const {
  // SQLite does not wait for this lock by itself: another program that opens the file at the same moment holds it for a moment only.
  constexpr int kAgain_ms = 10;
  for (int waited_ms = 0;; waited_ms += kAgain_ms) {
    const int code = sqlite3_exec(connection_.get(), "PRAGMA journal_mode = WAL", nullptr, nullptr, nullptr);
    if (code == SQLITE_OK) return;
    if ((code & 0xFF) != SQLITE_BUSY || waited_ms >= kPatience_ms) fail(code);
    sqlite3_sleep(kAgain_ms);
  }
}

std::int64_t Database::integer(std::string_view sql) const {
  Statement statement = prepare(sql);
  return statement.step() ? statement.integer(0) : 0;
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(connection_.get()); }

bool Database::copy_to(const std::string& path) const {
  refuse_name(path);
  struct stat status {};
  const bool known = ::stat(path_.c_str(), &status) == 0;
  try {
    NewFile file(path, known ? status.st_mode & 0777U : 0);
    struct Logs {
      const std::string& path;
      ~Logs() { remove_logs(path); }
    } const logs{file.temporary()};
    {
      const Database copy(file.temporary(), Access::just_made, path);
      sqlite3_backup* backup = sqlite3_backup_init(copy.connection_.get(), "main", connection_.get(), "main");
      if (!backup) copy.fail(sqlite3_errcode(copy.connection_.get()));
      sqlite3_backup_step(backup, -1);
      const int code = sqlite3_backup_finish(backup);
      if (code != SQLITE_OK) copy.fail(code);
      copy.run("PRAGMA journal_mode = DELETE; VACUUM");
    }
    return file.place_new();
  } catch (const FileFailure& failure) {
    throw LogbookFailure(failure.what());
  }
}

void Database::fail(int code) const {
  const char* said = connection_ ? sqlite3_errmsg(connection_.get()) : sqlite3_errstr(code);
  const std::string sentence = fmt::format("{}: {}", path_, complaint(code, said));
  if ((code & 0xFF) == SQLITE_CORRUPT || (code & 0xFF) == SQLITE_NOTADB) throw Damage(sentence);
  throw LogbookFailure(sentence);
}

bool Database::in_transaction() const { return sqlite3_get_autocommit(connection_.get()) == 0; }

Transaction::Transaction(const Database& database, Kind kind) : database_(database), inner_(database.in_transaction()) {
  database.run(inner_ ? "SAVEPOINT part" : kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
  if (!open_) return;
  try {
    database_.run(inner_ ? "ROLLBACK TO part; RELEASE part" : "ROLLBACK");
  } catch (const LogbookFailure&) {
    // Some failures (a full disk) have undone it already.
  }
}

void Transaction::commit() {
  database_.run(inner_ ? "RELEASE part" : "COMMIT");
  open_ = false;
}

bool is_sqlite_file(const std::string& path) {
  // Read by SQLite's own means: closing a file of one's own would end the locks that this process holds on it (SQLite's
  // documentation, "How To Corrupt An SQLite Database File" 2.2), and another program could take the log away from under it.
  sqlite3* raw = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READONLY, nullptr);
  const std::unique_ptr<sqlite3, decltype(&sqlite3_close_v2)> connection(raw, &sqlite3_close_v2);
  sqlite3_file* file = nullptr;
  if (code != SQLITE_OK || sqlite3_file_control(raw, "main", SQLITE_FCNTL_FILE_POINTER, &file) != SQLITE_OK) return false;
  // The first 16 bytes: SQLite's published file format, "Database File Format" 1.2.1.
  constexpr std::string_view kMagic("SQLite format 3\0", 16);
  std::array<char, kMagic.size()> head{};
  return file && file->pMethods && file->pMethods->xRead(file, head.data(), static_cast<int>(head.size()), 0) == SQLITE_OK &&
         std::string_view(head.data(), head.size()) == kMagic;
}

void remove_logs(const std::string& path) {
  std::error_code ignored;
  for (const char* end : {"-wal", "-shm", "-journal"}) std::filesystem::remove(path + end, ignored);
}

}  // namespace ringfall::logbook
