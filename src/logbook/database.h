// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/failure.h"

struct sqlite3;
struct sqlite3_stmt;

namespace ringfall::logbook {

/// Bytes to store as they are.
struct Blob {
  std::string_view bytes;
};

class Database;

/// One prepared statement. Every failure is a LogbookFailure that names the file, what is wrong and what to do.
class Statement {
 public:
  /// Binds all parameters in order and makes the statement ready to step. Text and blobs are copied.
  template <typename... Values>
  Statement& with(const Values&... values) {
    reset();
    [[maybe_unused]] int place = 0;
    (bind(++place, values), ...);
    return *this;
  }
  /// Binds one parameter of a statement that was made ready by with(): places count from 1, what is not bound is NULL.
  template <typename Value>
  void bind_one(int place, const Value& value) {
    bind(place, value);
  }
  /// The next row; false: there is none.
  bool step();
  /// Runs a statement that gives no rows.
  void run() { step(); }

  enum class Kind { null, integer, real, bytes };
  Kind kind(int column) const;
  /// Damage: beyond 2^53, which no number of a logbook is.
  std::int64_t integer(int column) const;
  std::optional<std::int64_t> maybe_integer(int column) const;
  /// Damage: no number, or beyond 1e12 in size, which no quantity of a logbook is.
  double real(int column) const;
  /// As it stands there.
  double raw_real(int column) const;
  std::optional<double> maybe_real(int column) const;
  /// Text or blob; empty for NULL.
  std::string text(int column) const;

  /// Damage: says that this column's value can't be.
  [[noreturn]] void refuse_value(int column) const;

 private:
  friend class Database;
  Statement(const Database& database, std::string_view sql);
  void reset();
  void bind(int place, std::int64_t value);
  void bind(int place, int value) { bind(place, static_cast<std::int64_t>(value)); }
  void bind(int place, double value);
  void bind(int place, std::string_view value);
  void bind(int place, const std::string& value) { bind(place, std::string_view(value)); }
  void bind(int place, Blob value);
  template <typename Value>
  void bind(int place, const std::optional<Value>& value) {
    if (value) bind(place, *value);  // what is not bound is NULL
  }

  struct Finalize {
    void operator()(sqlite3_stmt* statement) const;
  };
  const Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// A file's own bytes are not as they must be, or hold what can't be; any other LogbookFailure is one of the machine, or of what was asked.
struct Damage : LogbookFailure {
  using LogbookFailure::LogbookFailure;
};

/// One connection to one SQLite file: foreign keys on, write-ahead log, every commit on the disk before it returns, and up to
/// ten seconds of patience while another program writes. One thread at a time.
class Database {
 public:
  enum class Access { existing, just_made, in_memory };

  /// `just_made`: an empty file of NewFile. A file in a folder that may not be written is opened for reading alone. Whatever the file
  /// says, its triggers, views and expressions reach no function with an effect, nothing writes its inner tables, and every page's cells
  /// are checked (SQLite's documentation, "Defense Against The Dark Arts" 1.1-1.2). LogbookFailure: no such file (existing), not SQLite,
  /// damaged, not allowed. RequestFailure: an empty name.
  /// `called`: its name in sentences, when it is not known by the one it has now; empty: `file`.
  Database(const std::string& file, Access access, const std::string& called = {});
  bool read_only() const;

  const std::string& path() const { return path_; }
  Statement prepare(std::string_view sql) const { return {*this, sql}; }
  /// Runs statements without parameters.
  void run(const std::string& sql) const;
  /// Changes are written to a log beside the file from now on, so that readers and a writer don't wait for each other.
  void use_write_ahead_log() const;
  /// The first column of the first row, as a whole number; 0 without a row.
  std::int64_t integer(std::string_view sql) const;
  std::int64_t last_row() const;
  /// A whole, consistent, compact copy at `path`, also while others write, with the permissions of this file. It gets its name when it is
  /// whole. False: there is something of that name, left as it is. LogbookFailure: it can't be written; then nothing stays of it.
  bool copy_to(const std::string& path) const;

 private:
  friend class Statement;
  friend class Transaction;
  bool in_transaction() const;
  [[noreturn]] void fail(int code) const;

  struct Close {
    void operator()(sqlite3* connection) const;
  };
  std::string path_;
  std::unique_ptr<sqlite3, Close> connection_;
};

/// All or nothing: what is not committed is undone. One that writes takes the right to at once, so two writers never
/// half-finish; one that reads sees the file as it was at its first look. Inside another it is a part of that one.
class Transaction {
 public:
  enum class Kind { read, write };
  explicit Transaction(const Database& database, Kind kind = Kind::write);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  const Database& database_;
  bool inner_;
  bool open_ = true;
};

/// Does the file start as every SQLite file does? False also when it can't be read. Safe while this process has it open.
bool is_sqlite_file(const std::string& path);

/// Takes away what SQLite keeps beside a file, once nobody has it open.
void remove_logs(const std::string& path);

}  // namespace ringfall::logbook
