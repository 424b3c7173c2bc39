// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "logbook/database.h"
#include "logbook/entries.h"

namespace ringfall::logbook {

/// Replaces the parts of a bow or of a set-up: exactly one of the two is given.
void write_parts(const Database& database, std::optional<std::int64_t> bow_id, std::optional<std::int64_t> setup_id,
                 const std::vector<Part>& parts);
/// Reads a statement whose columns are kind, what, place, mass_kg to its end.
std::vector<Part> read_parts(Statement& rows);

/// "mass", "damper", "silencer", "other".
std::string_view part_kind_name(Part::Kind kind);
/// The kind of this name; nullopt for another.
std::optional<Part::Kind> find_part_kind(std::string_view name);

}  // namespace ringfall::logbook
