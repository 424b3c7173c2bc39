// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/database.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <array>
#include <cerrno>
#include <cmath>
#include <cstdio>
#include <filesystem>

#include "base/check.h"
#include "base/failure.h"

namespace ringfall::logbook {
namespace {

constexpr int kPatience_ms = 10000;

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
    case SQLITE_CONSTRAINT: return fmt::format("the logbook refuses this entry ({})", said);
    default: return fmt::format("the logbook can't be read or written ({}); check the disk and try again", said);
  }
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

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(statement_.get(), column); }

std::optional<std::int64_t> Statement::maybe_integer(int column) const {
  if (sqlite3_column_type(statement_.get(), column) == SQLITE_NULL) return std::nullopt;
  return integer(column);
}

double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

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

Database::Database(const std::string& path, Access access) : path_(path) {
  if (access == Access::existing && !std::filesystem::exists(path)) {
    throw LogbookFailure(fmt::format("{}: there is no such logbook; make one with `ringfall start`", path));
  }
  if (access == Access::existing && !is_sqlite_file(path)) fail(SQLITE_NOTADB);
  if (access == Access::create && !make_new_file(path)) {
    throw LogbookFailure(fmt::format("{}: this file exists and is not written over; give another name", path));
  }
  sqlite3* connection = nullptr;
  const int code = sqlite3_open_v2(path.c_str(), &connection, SQLITE_OPEN_READWRITE, nullptr);
  connection_.reset(connection);
  if (code != SQLITE_OK) {
    if (access == Access::create) remove_file(path);
    fail(code);
  }
  sqlite3_busy_timeout(connection, kPatience_ms);
  run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL");
}

void Database::run(const std::string& sql) const {
  const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(code);
}

std::int64_t Database::integer(std::string_view sql) const {
  Statement statement = prepare(sql);
  return statement.step() ? statement.integer(0) : 0;
}

std::int64_t Database::last_row() const { return sqlite3_last_insert_rowid(connection_.get()); }

void Database::copy_to(const std::string& path) const {
  auto copy = std::make_unique<const Database>(path, Access::create);
  try {
    sqlite3_backup* backup = sqlite3_backup_init(copy->connection_.get(), "main", connection_.get(), "main");
    if (!backup) copy->fail(sqlite3_errcode(copy->connection_.get()));
    sqlite3_backup_step(backup, -1);
    const int code = sqlite3_backup_finish(backup);
    if (code != SQLITE_OK) copy->fail(code);
  } catch (...) {
    copy.reset();
    remove_file(path);
    throw;
  }
}

void Database::fail(int code) const {
  const char* said = connection_ ? sqlite3_errmsg(connection_.get()) : sqlite3_errstr(code);
  throw LogbookFailure(fmt::format("{}: {}", path_, complaint(code, said)));
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

bool make_new_file(const std::string& path) {
  // "x" of C17 7.21.5.3: fails when there is one, in one step.
  if (std::FILE* file = std::fopen(path.c_str(), "wbx")) return std::fclose(file) == 0;
  if (errno == EEXIST) return false;
  throw LogbookFailure(fmt::format("{}: {}", path, complaint(SQLITE_CANTOPEN, "")));
}

void remove_file(const std::string& path) {
  std::error_code ignored;
  for (const char* end : {"", "-wal", "-shm", "-journal"}) std::filesystem::remove(path + end, ignored);
}

}  // namespace ringfall::logbook
