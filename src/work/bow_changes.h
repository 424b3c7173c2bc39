// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/season.h"
#include "logbook/logbook.h"

namespace ringfall::work {

/// One sentence a change of the bow between two sessions of a set-up: what is new, since when, and how the sound exposure of the session after
/// differs from that of the session before, where both are of one scale. What was not said before is no change. Tests: work.BowChanges.*
std::vector<std::string> bow_changes(const logbook::Logbook& book, const compare::SetUpSeason& season);

}  // namespace ringfall::work
