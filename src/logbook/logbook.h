// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "logbook/database.h"
#include "logbook/entries.h"

namespace ringfall::logbook {

/// One logbook, one SQLite file. Every call that changes something is one transaction: on the disk when it returns, not there
/// at all when it throws or the program dies. Two programs may use one file at once. Not for several threads.
/// LogbookFailure: the file can't be used (which file, what is wrong, what to do), or it refuses an entry.
/// RequestFailure: a set-up, block or shot that is not there. Definition: docs/logbook.md. Tested: logbook.*
class Logbook {
 public:
  /// Makes the file. LogbookFailure: it exists, or can't be written.
  static Logbook start(const std::string& path, const Conditions& conditions);
  /// Opens a logbook; older files are brought to the present version (a copy is kept beside them).
  explicit Logbook(const std::string& path) : Logbook(Database(path, Database::Access::existing)) {}
  explicit Logbook(Database database);

  Conditions conditions() const;
  /// In the order they were made.
  std::vector<SetUp> setups() const;
  /// The first one becomes the baseline, whatever `setup` says.
  void add_setup(const SetUp& setup);

  /// Returns the block's number.
  std::int64_t add_block(const NewBlock& block);
  /// Keeps a shot's sound, before there are numbers; returns the shot's id.
  std::int64_t add_clip(std::int64_t block, const CodedClip& clip);
  /// Replaces what was measured of a shot.
  void set_numbers(std::int64_t shot_id, const shot::Shot& measured, const std::string& analyser);
  void add_comment(std::int64_t shot_id, const Comment& comment);
  /// `reason` empty: takes it in again.
  void drop_shot(std::int64_t shot_id, const std::string& reason);
  void drop_block(std::int64_t block, const std::string& reason);

  /// All blocks in shooting order with all their shots, without the sound.
  std::vector<KeptBlock> blocks() const;
  CodedClip clip(std::int64_t shot_id) const;

  /// Reads every page of the file and holds every reference against its target; LogbookFailure when something is wrong.
  void check_whole() const;

 private:
  void need_shot(std::int64_t shot_id) const;
  Database database_;
};

}  // namespace ringfall::logbook
