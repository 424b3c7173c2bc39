// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace ringfall::logbook {

/// What a bow or set-up was like before a change. What it is like since the last of them is in bows() and setups().
struct Earlier {
  std::string until;  ///< UTC, ISO 8601: sessions begun before it
  Fittings fittings = {};
  std::string changed = {};                     ///< of a set-up: what differed from the baseline
  std::optional<double> added_mass_kg = {};     ///< of a set-up, as it was stated
};

/// Of a bow, or with `setup` of that set-up of it; oldest first. RequestFailure: there is no such one.
std::vector<Earlier> earlier_states(const Logbook& book, const std::string& bow, const std::optional<std::string>& setup = std::nullopt);

/// Keeps what a bow (or set-up) is like now as what it was like until `since` (UTC, ISO 8601; empty: now); to be followed by change_bow or
/// change_setup in the same transaction. Nothing is kept when no session of the bow began before `since` and after the change before: nobody
/// shot with that state. RequestFailure: it is not there, or was changed at that time or later. Tests: logbook.Earlier.*
void keep_state(const Logbook& book, const std::string& since, const std::string& bow, const std::optional<std::string>& setup = std::nullopt);

/// What was on the bow at a time: the first state whose end is later, else what is on it now.
Fittings fittings_at(const Logbook& book, const std::string& bow, const std::string& when);

}  // namespace ringfall::logbook
