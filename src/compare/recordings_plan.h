// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/session.h"

namespace ringfall::compare {

/// A comparison without a table: recordings as somebody types or drops them. Each word is FILE, its name being the set-up's, or
/// NAME=FILE,FILE. One recording is one block; blocks are numbered in the order written, the first set-up is the baseline.
/// A FILE's set-up is its name without folder and extension. Where several would be one but for a number at their end ("bare 1", "bare 2")
/// that number is left off, unless no two set-ups would be left; files of one name in different folders are named by the folders.
/// RequestFailure: a word without a name or file, fewer than two set-ups. Definition: docs/measures/comparison.md#recordings. Tests:
/// compare.RecordingsPlan.*
SessionPlan plan_of_recordings(const std::vector<std::string>& words);

/// Does this word name recordings rather than a folder, a table or a logbook? NAME=FILE does, and a file that ends as sound files do.
bool names_recordings(const std::string& word);

/// Is it a file that ends as sound and video files do (".wav", ".m4a", ...)?
bool is_sound_name(const std::string& file);

/// The plan of `source`: its setups.csv (read_session_plan) or, in a folder without one, each sub-folder with recordings is a set-up; "bare",
/// "baseline", "before" and "without" come first, else the order is that of the names. FileFailure: neither is there.
SessionPlan session_plan_of(const std::string& source);

/// What a plan's table says of its set-ups: their notes and, in a column `added_mass_g`, what each adds to the bow (one line of it is enough).
/// Empty without a table. FileFailure: two masses of one set-up, or one that no bow could have.
std::vector<SetUpFacts> setup_facts_of(const std::string& source);

}  // namespace ringfall::compare
