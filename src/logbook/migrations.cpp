// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/migrations.h"

#include <fmt/format.h>

#include <array>

#include "base/failure.h"
#include "logbook/schema_1.h"

namespace ringfall::logbook {
namespace {

constexpr std::array kMigrations = {Migration{1, kSchema1}};

std::int64_t version_of(const Database& database) { return database.integer("PRAGMA user_version"); }

/// A new, empty file belongs to nobody yet.
bool is_empty(const Database& database) { return database.integer("SELECT count(*) FROM sqlite_schema") == 0; }

void refuse_foreign(const Database& database) {
  if (database.integer("PRAGMA application_id") == kApplicationId || is_empty(database)) return;
  throw LogbookFailure(fmt::format("{}: this is another program's file, no logbook; give a file that `ringfall start` made",
                                   database.path()));
}

}  // namespace

std::span<const Migration> migrations() { return kMigrations; }

void migrate(const Database& database, std::span<const Migration> steps) {
  refuse_foreign(database);
  const std::int64_t last = steps.back().version;
  const std::int64_t found = version_of(database);
  if (found > last) {
    throw LogbookFailure(fmt::format("{}: the logbook is of version {}, made by a newer Ringfall; this one knows versions up to {}. "
                                     "Use the newer program", database.path(), found, last));
  }
  if (found == last) return;
  if (found > 0) database.copy_to(fmt::format("{}.version-{}", database.path(), found));
  for (const Migration& step : steps) {
    Transaction transaction(database);
    // Another program may have taken the step while this one waited.
    if (version_of(database) >= step.version) continue;
    database.run(step.sql);
    database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", kApplicationId, step.version));
    transaction.commit();
  }
}

}  // namespace ringfall::logbook
