// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "base/unit_text.h"
#include "logbook/entries.h"

namespace ringfall::terminal {

/// A bow in one line.
std::string bow_line(const logbook::Bow& bow, Units units);
/// A set-up in one line.
std::string setup_line(const logbook::SetUp& setup, bool name_the_bow, Units units);

}  // namespace ringfall::terminal
