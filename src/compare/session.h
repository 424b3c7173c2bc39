// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "logbook/entries.h"
#include "shot/shot.h"

namespace ringfall::compare {

/// What the archer said of one shot; ratings 0 .. 10.
struct Said {
  std::optional<double> loud;
  std::optional<double> hum;
  std::optional<double> ping;
  std::optional<double> feel;
  std::string words;
  bool blind = false;  ///< all of it before the numbers could be seen
};

struct SessionShot {
  shot::Shot shot;
  Said said;
  std::int64_t id = 0;                        ///< its number in a logbook; 0: not from one
  std::vector<std::optional<double>> values = {};  ///< of a foreign table, one a Session::columns
  std::string dropped = {};                        ///< why it is left out
};

/// What is known of the air, the place and the chain a block was shot with; empty or nullopt: not known.
struct BlockFacts {
  std::optional<double> distance_m;
  std::optional<double> temperature_c;
  std::optional<bool> calibrated;
  std::string chain;  ///< microphone, recorder, gain: free words
  std::string bow;
};

/// What is known of a set-up.
struct SetUpFacts {
  std::string name;
  std::string changed;
  std::optional<double> added_mass_kg;
  std::optional<double> arrow_mass_kg;
  bool only_mass = false;  ///< all its parts are masses
};

/// What a logbook holds beside the blocks compared: their sessions, bows and set-ups.
struct LogbookFacts {
  std::vector<logbook::Conditions> sessions;
  std::vector<logbook::Bow> bows;
  std::vector<logbook::SetUp> setups;  ///< named as in the session
};

/// A number column of a foreign table.
struct Column {
  std::string name;
  std::string unit;
  int decimals = 2;
  double noticeable = 0.0;  ///< 0: not known
};

/// One block of shots with one set-up: one recording.
struct SessionBlock {
  int session = 1;   ///< the evening; blocks of one evening share what differs between evenings
  std::string file;  ///< as written in the table
  std::string setup;
  int block = 0;
  std::string note;
  std::string dropped;  ///< why the block is left out of the comparison; empty: it is not
  std::vector<SessionShot> shots;
  std::vector<SessionShot> dropped_shots;  ///< left out by their owner, with the reason
  std::vector<std::string> left_out;  ///< one sentence a shot that is not in `shots`
  BlockFacts facts;
  Said said = {};                     ///< of the block as a whole
  std::vector<Finding> findings;  ///< about the recording
  double sample_rate_hz = 0.0;
  std::optional<int> channel = {};    ///< measured, counted from 1
};

/// Set-ups shot in blocks, in shooting order.
struct Session {
  std::vector<SessionBlock> blocks;
  std::vector<SetUpFacts> setup_facts;  ///< of those set-ups of which something is known
  LogbookFacts logbook;                 ///< empty: not from one
  std::vector<Column> columns;          ///< of a foreign table; empty: the shots are Ringfall's own

  /// Names of the set-ups with a block that counts, in order of first appearance.
  std::vector<std::string> setups() const;
  /// The blocks that count: not dropped.
  std::vector<const SessionBlock*> kept() const;
  /// What is known of a set-up; nullptr: nothing.
  const SetUpFacts* facts_of(const std::string& setup) const;
};

/// "session 3", "sessions 1, 3".
std::string sessions_text(const std::vector<int>& sessions);

/// Which recording is which set-up and block, and what was said: a folder's setups.csv and comments.csv.
struct SessionPlan {
  std::string folder;
  std::vector<SessionBlock> blocks;                          ///< without shots yet
  std::map<std::pair<std::string, int>, Said> said;          ///< by file and shot number

  /// A block's recording, ready to open.
  std::string path_of(const SessionBlock& block) const;
};

/// Reads a plan. `source`: a folder with a setups.csv, or such a table itself; a comments.csv beside it is read when there.
/// setups.csv: file, setup, block [, note, drop]; without `block` each row is one block in the order written; a reason under
/// `drop` leaves the block out of the comparison, which says so.
/// comments.csv: file, shot [, loud, hum, ping, feel, words].
/// FileFailure says which table and line is wrong: no rows, an empty name, a rating outside 0 .. 10, an unknown file.
SessionPlan read_session_plan(const std::string& source);

}  // namespace ringfall::compare
