// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "logbook/database.h"
#include "logbook/entries.h"

namespace ringfall::logbook {

/// One logbook, one SQLite file. Every call that changes something is one transaction: on the disk when it returns, not there
/// at all when it throws or the program dies. Two programs may use one file at once. Not for several threads.
/// LogbookFailure: the file can't be used (which file, what is wrong, what to do), or it refuses an entry.
/// RequestFailure: a bow, session, set-up, block, shot or comment that is not there. Definition: docs/logbook.md. Tested: logbook.*
class Logbook {
 public:
  /// Makes the file with a bow and a first session; `bow` is as on the bow's part, its name is that of the conditions.
  /// LogbookFailure: it exists, or can't be written.
  static Logbook start(const std::string& path, const Conditions& conditions, const Bow& bow = {});
  /// Opens a logbook; older files are brought to the present version (a copy is kept beside them).
  explicit Logbook(const std::string& path) : Logbook(Database(path, Database::Access::existing)) {}
  explicit Logbook(Database database);
  const std::string& path() const { return database_.path(); }
  const Database& database() const { return database_; }

  /// In the order they were made.
  std::vector<Bow> bows() const;
  void add_bow(const Bow& bow);
  /// Replaces everything said of the bow of this name, its name too.
  void change_bow(const std::string& name, const Bow& bow);

  /// The last session.
  Conditions conditions() const;
  Conditions conditions(std::int64_t session) const;
  /// In the order they were started.
  std::vector<Conditions> sessions() const;
  /// Blocks belong to the new session from now on, whatever its date. An empty bow is that of the session before. Returns the session's number.
  std::int64_t start_session(const Conditions& conditions);
  /// Replaces everything said of the session `conditions.session`, but not its bow; an empty start leaves the one there is.
  void change_session(const Conditions& conditions);

  /// All bows' set-ups, in the order they were made.
  std::vector<SetUp> setups() const;
  /// Those of one bow.
  std::vector<SetUp> setups(const std::string& bow) const;
  /// The first one of a bow becomes its baseline, whatever `setup` says; a later one that says so takes it over.
  void add_setup(const SetUp& setup);
  /// Takes away a set-up of `bow` (empty: that of the last session) that has no blocks. RequestFailure: it has some, or it is the
  /// baseline of others.
  void remove_setup(const std::string& bow, const std::string& name);
  /// Replaces everything said of a set-up of `setup.bow`, its name too. RequestFailure: the baseline must be handed on, not given up.
  void change_setup(const std::string& name, const SetUp& setup);

  /// Returns the block's number.
  std::int64_t add_block(const NewBlock& block);
  /// Another set-up of the same bow, when the wrong one was named.
  void change_block(std::int64_t block, const std::string& setup, const std::string& note);
  /// Keeps a shot's sound, before there are numbers; returns the shot's id. `clip.number` 0: the next of its block.
  std::int64_t add_clip(std::int64_t block, const CodedClip& clip);
  /// For a clip kept before all was known: where in its recording the edge and what follows it are. `places`: without samples.
  /// Numbers of other places go at once.
  void set_places(std::int64_t shot_id, double onset_s, const shot::Clip& places);
  /// Replaces what only the whole block shows.
  void set_block_findings(std::int64_t block, const std::vector<Finding>& findings);
  /// Where the very same sound, byte for byte, is kept already, in a block that is not dropped; nullopt: nowhere.
  std::optional<SoundPlace> place_of(const CodedClip& clip) const;
  /// Replaces what was measured of a shot.
  void set_numbers(std::int64_t shot_id, const shot::Shot& measured, const std::string& analyser);
  /// `reason` empty: takes it in again. RequestFailure: a shot or block whose sound another one that counts holds can't come in again.
  void drop_shot(std::int64_t shot_id, const std::string& reason);
  void drop_block(std::int64_t block, const std::string& reason);

  /// Each returns the comment's id.
  std::int64_t add_comment(std::int64_t shot_id, const Comment& comment);
  std::int64_t add_block_comment(std::int64_t block, const Comment& comment);
  /// Replaces ratings and words; when it was said stays. It is not blind any more.
  void change_comment(std::int64_t comment_id, const Comment& comment);
  void remove_comment(std::int64_t comment_id);
  /// A shot's comment as it was, with its id and times, whether it was changed or taken away since.
  void put_comment_back(std::int64_t shot_id, const Comment& comment);

  /// Says that a shot is none: it is dropped for that reason.
  void say_not_a_shot(std::int64_t shot_id);
  /// Says where the loud edge of a shot is, seconds in its recording, inside its clip. Its numbers go at once, since they belong to
  /// the old edge: until set_numbers() it counts as not measured.
  void move_edge(std::int64_t shot_id, double edge_s);
  /// Says that the finder missed a shot with its edge at `edge_s`; `shot_id` once its sound is kept.
  void say_missed_shot(std::int64_t block, double edge_s, std::optional<std::int64_t> shot_id);
  /// Takes the last correction of a shot back: it is left out for the reason it had before, or counts again; a moved edge is where
  /// it was found, without numbers until set_numbers().
  void undo_correction(std::int64_t shot_id);
  /// Takes a shot that was added as missed out again, its sound with it (the recording has it still). RequestFailure: the finder
  /// found it, or it has comments.
  void remove_missed_shot(std::int64_t shot_id);
  std::vector<Correction> corrections() const;

  /// All blocks in shooting order with all their shots, without the sound. A shot whose row can't be read to its end is marked and
  /// dropped; damage elsewhere is a LogbookFailure.
  std::vector<KeptBlock> blocks() const;
  CodedClip clip(std::int64_t shot_id) const;

  /// A whole, compact copy as one file, also while others write. LogbookFailure: it exists, or can't be written.
  void copy_to(const std::string& path) const;
  /// Reads every page of the file and holds every reference against its target: the first thing that is wrong; nullopt: nothing.
  std::optional<std::string> what_is_wrong() const;
  /// LogbookFailure: something is.
  void check_whole() const;

 private:
  void need_shot(std::int64_t shot_id) const;
  void forget_numbers(std::int64_t shot_id);
  std::int64_t need_bow(const std::string& name) const;
  std::int64_t need_session(std::int64_t session) const;
  std::int64_t need_setup(std::int64_t bow_id, const std::string& name) const;
  std::int64_t need_block(std::int64_t block) const;
  std::string last_bow() const;
  Database database_;
};

}  // namespace ringfall::logbook
