// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "base/finding.h"
#include "logbook/database.h"

namespace ringfall::logbook {

/// Writes findings of a block or of a shot: exactly one of the two is given.
void write_findings(const Database& database, std::optional<std::int64_t> block_id, std::optional<std::int64_t> shot_id,
                    const std::vector<Finding>& findings);
inline constexpr const char* kFindingColumns = "code, severity, voids, sentence, origin";
/// Reads a statement whose columns are kFindingColumns to its end. Quantities of no known name (a newer program's) are left out.
std::vector<Finding> read_findings(Statement& rows);

}  // namespace ringfall::logbook
