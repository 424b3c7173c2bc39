// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "base/unit_text.h"
#include "logbook/entries.h"

namespace ringfall::report {

/// "hum 2, feel 8, "dull"" - all comments on one line.
std::string said_text(const std::vector<logbook::Comment>& comments);

/// What is on a bow or in a set-up, on one line; empty when nothing is said.
std::string fittings_text(const logbook::Fittings& fittings, Units units);

/// What is on a bow and said of it, without its name; may be empty.
std::string bow_text(const logbook::Bow& bow, Units units);
/// What a set-up changes and adds, without its name; may be empty.
std::string setup_text(const logbook::SetUp& setup, Units units);

/// A session on one line: date, bow, place, distance, air, chain.
std::string session_text(const logbook::Conditions& conditions, Units units);

}  // namespace ringfall::report
