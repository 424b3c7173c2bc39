// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "shot/shot.h"

namespace ringfall::compare {

/// What the archer said of one shot; ratings 0 .. 10.
struct Said {
  std::optional<double> loud;
  std::optional<double> hum;
  std::optional<double> ping;
  std::optional<double> feel;
  std::string words;
};

struct SessionShot {
  shot::Shot shot;
  Said said;
};

/// One block of shots with one set-up: one recording.
struct SessionBlock {
  std::string file;  ///< as written in the table
  std::string setup;
  int block = 0;
  std::string note;
  std::string dropped;  ///< why the block is left out of the comparison; empty: it is not
  std::vector<SessionShot> shots;
  std::vector<std::string> left_out;  ///< one sentence a shot that is not in `shots`
  std::vector<Finding> findings;  ///< about the recording
  double sample_rate_hz = 0.0;
};

/// Set-ups shot in blocks, in shooting order.
struct Session {
  std::vector<SessionBlock> blocks;

  /// Names of the set-ups with a block that counts, in order of first appearance.
  std::vector<std::string> setups() const;
  /// The blocks that count: not dropped.
  std::vector<const SessionBlock*> kept() const;
};

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
