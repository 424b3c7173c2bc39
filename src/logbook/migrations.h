// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <span>

#include "logbook/database.h"

namespace ringfall::logbook {

/// One step of the file's history: statements that turn version - 1 into `version`.
struct Migration {
  std::int64_t version;  ///< from 1, without gaps
  const char* sql;
};

/// All steps, oldest first. Never edit one that was released: add the next (docs/logbook.md).
std::span<const Migration> migrations();

/// Says in the file's header that it is a logbook: the bytes "RFlb".
inline constexpr std::int64_t kApplicationId = 0x52466C62;

/// Makes a logbook without entries, at the last of `steps`, of an empty file.
void migrate_new(const Database& database, std::span<const Migration> steps);

/// Is a whole copy of a file kept beside it before it is changed?
enum class OldFile { kept, not_kept };

/// Brings a file to the last of `steps`, all in one transaction that also sets the version. Before the first step of a file
/// that holds something one whole copy is kept beside it as FILE.version-N, however many programs open the file at once.
/// Before anything of the file is run its tables, triggers and the rest are held against what its version must be.
/// LogbookFailure: another program's file (an empty one too), one with foreign parts, a file of a newer Ringfall, a copy that can't be written; the file is unchanged then.
void migrate(const Database& database, std::span<const Migration> steps, OldFile old = OldFile::kept);

}  // namespace ringfall::logbook
