// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "base/unit_text.h"
#include "logbook/entries.h"

namespace ringfall::terminal {

/// "hum 2, feel 8, "dull"" - all comments on one line.
std::string said_text(const std::vector<logbook::Comment>& comments);

/// What is on a bow or in a set-up, on one line; empty when nothing is said.
std::string fittings_text(const logbook::Fittings& fittings, Units units);

/// A session on one line: date, bow, place, distance, air, chain.
std::string session_text(const logbook::Conditions& conditions, Units units);

}  // namespace ringfall::terminal
