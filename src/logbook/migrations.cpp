// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/migrations.h"

#include <fmt/format.h>

#include <array>

#include "base/failure.h"
#include "logbook/schema_1.h"
#include "logbook/schema_2.h"
#include "logbook/schema_3.h"
#include "logbook/schema_4.h"
#include "logbook/schema_5.h"
#include "logbook/schema_check.h"

namespace ringfall::logbook {
namespace {

constexpr std::array kMigrations = {Migration{1, kSchema1}, Migration{2, kSchema2}, Migration{3, kSchema3},
                                   Migration{4, kSchema4}, Migration{5, kSchema5}};

std::int64_t version_of(const Database& database) { return database.integer("PRAGMA user_version"); }

void refuse_foreign(const Database& database) {
  if (database.integer("PRAGMA application_id") == kApplicationId) return;
  throw LogbookFailure(fmt::format("{}: this is another program's file, no logbook; give a file that `ringfall start` made",
                                   database.path()));
}

/// A whole copy as FILE.version-N, or with -2, -3 ... behind it when there is one already: no copy is written over. The
/// connection holds the right to write and has written nothing, so a second one sees what will be changed.
void keep_copy(const std::string& path, std::int64_t version) {
  const std::string name = fmt::format("{}.version-{}", path, version);
  std::string own = name;
  const Database present(path, Database::Access::existing);
  for (int k = 2; !present.copy_to(own); ++k) own = fmt::format("{}-{}", name, k);
}

/// Foreign keys can be put to rest outside a transaction only; a table that others refer to can't be made anew with them on.
class ForeignKeysAtRest {
 public:
  explicit ForeignKeysAtRest(const Database& database) : database_(database) { database_.run("PRAGMA foreign_keys = OFF"); }
  ~ForeignKeysAtRest() {
    try {
      database_.run("PRAGMA foreign_keys = ON");
    } catch (const LogbookFailure&) {
      // The connection is of no use any more, and says so at its next use.
    }
  }
  ForeignKeysAtRest(const ForeignKeysAtRest&) = delete;
  ForeignKeysAtRest& operator=(const ForeignKeysAtRest&) = delete;

 private:
  const Database& database_;
};

void take_step(const Database& database, const Migration& step) {
  database.run(step.sql);
  Statement orphan = database.prepare("PRAGMA foreign_key_check");
  if (orphan.step()) {
    throw LogbookFailure(fmt::format("{}: the logbook is damaged (a row of the table {} belongs to nothing); it stays as it is. Go "
                                     "on with your last copy of it", database.path(), orphan.text(0)));
  }
  database.run(fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {}", kApplicationId, step.version));
}

/// The file's version. LogbookFailure: another program's file, one of a newer Ringfall, or one with foreign parts.
std::int64_t known_version(const Database& database, std::span<const Migration> steps) {
  const std::int64_t newest = steps.back().version;
  refuse_foreign(database);
  const std::int64_t found = version_of(database);
  if (found < 1) throw LogbookFailure(database.path() + ": this is no logbook but an empty file; give one that `ringfall start` made");
  if (found <= newest) {
    if (const auto foreign = foreign_part(database, steps, found)) {
      throw Damage(fmt::format("{}: this is no logbook as Ringfall makes it, and nothing of it is used: {}. Ask for an export "
                               "(`ringfall export`) instead, or go on with your last copy of it", database.path(), *foreign));
    }
    return found;
  }
  throw LogbookFailure(fmt::format("{}: the logbook is of version {}, made by a newer Ringfall; this one knows versions up to {}. "
                                   "Use the newer program", database.path(), found, newest));
}

}  // namespace

std::span<const Migration> migrations() { return kMigrations; }

void migrate_new(const Database& database, std::span<const Migration> steps) {
  const ForeignKeysAtRest rest(database);
  Transaction transaction(database);
  for (const Migration& step : steps) take_step(database, step);
  transaction.commit();
}

void migrate(const Database& database, std::span<const Migration> steps, OldFile old) {
  const std::int64_t newest = steps.back().version;
  if (known_version(database, steps) == newest) return;
  const ForeignKeysAtRest rest(database);
  Transaction transaction(database);
  // Looked at again: another program may have taken the steps while this one waited for the right to write.
  const std::int64_t found = known_version(database, steps);
  if (found == newest) return;
  if (old == OldFile::kept) keep_copy(database.path(), found);
  for (const Migration& step : steps) {
    if (step.version > found) take_step(database, step);
  }
  transaction.commit();
}

}  // namespace ringfall::logbook
