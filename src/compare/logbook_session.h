// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compare/session.h"
#include "logbook/logbook.h"

namespace ringfall::compare {

/// Numbers that a blind session hides until a comment is in.
enum class Hidden {
  refused,  ///< nothing is shown while there are any
  taken_in  ///< where no shot's numbers can be told from what is shown
};

/// A logbook's blocks as a session to compare, with what is known of place, chain and set-ups; of one bow, or of all (then the bow's name
/// goes before the set-up's). Dropped blocks stay in it, marked; dropped shots are kept apart, shots not measured yet left out, both named in
/// SessionBlock::left_out. Of several comments on a shot the last rating counts and all words stay. LogbookFailure: shots that count still hide
/// their numbers, which a comparison would give away. Tests: compare.LogbookSession.*
Session logbook_session(const logbook::Logbook& logbook, const std::optional<std::string>& bow = std::nullopt,
                        Hidden hidden = Hidden::refused);

/// Ids of the shots that count and still hide their numbers, in shooting order; of one bow or of all.
std::vector<std::int64_t> hidden_shots(const std::vector<logbook::KeptBlock>& blocks, const std::optional<std::string>& bow = std::nullopt);

/// One sentence on the shots that count and still hide their numbers, of one bow or of all; nullopt: there are none.
std::optional<std::string> hidden_numbers(const std::vector<logbook::KeptBlock>& blocks, const std::string& path,
                                           const std::optional<std::string>& bow = std::nullopt);

/// The set-up that the logbook calls the baseline, as named in the session; nullopt: it has no block that counts.
std::optional<std::string> logbook_baseline(const logbook::Logbook& logbook, const Session& session);

}  // namespace ringfall::compare
