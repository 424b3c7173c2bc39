// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <set>
#include <span>
#include <string>

#include "logbook/migrations.h"

namespace ringfall::logbook {

/// What in a file of this version differs from what its version must be, as a clause ("it holds a trigger 'x' that no logbook of version 4
/// has"); nullopt: nothing. The file's own statements (triggers, views, expressions) are compared as texts and not run. Each object must be
/// that of a new file taken through the same steps, blanks, quotes and the case of letters apart (SQLite's own rewriting differs there
/// between its versions). Tested: logbook.Foreign.*
std::optional<std::string> foreign_part(const Database& database, std::span<const Migration> steps, std::int64_t version);

/// The tables of this version, SQLite's own table of ids among them.
std::set<std::string> known_tables(std::int64_t version);

}  // namespace ringfall::logbook
