// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/logbook.h"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "base/failure.h"
#include "base/new_file.h"
#include "logbook/migrations.h"
#include "logbook/names.h"

namespace ringfall::logbook {
namespace {

/// False also for a name that no file can have: the file's opening says why.
bool is_there(const std::string& path) {
  std::error_code ignored;
  return std::filesystem::exists(path, ignored);
}

}  // namespace

Logbook::Logbook(Database database) : database_(std::move(database)) {
  migrate(database_, migrations());
  if (!database_.read_only()) database_.use_write_ahead_log();
}

Logbook Logbook::start(const std::string& path, const Conditions& conditions, const Bow& bow) {
  if (is_there(path)) {
    throw LogbookFailure(fmt::format("{}: this file exists; add recordings to it with `ringfall add`, or give another name", path));
  }
  need_name(conditions.bow, "bow");
  // Under another name until it is whole: a start that is killed leaves nothing that looks like a logbook.
  try {
    NewFile file(path);
    struct Logs {
      const std::string& path;
      ~Logs() { remove_logs(path); }
    } const logs{file.temporary()};
    {
      const Database made(file.temporary(), Database::Access::just_made, path);
      migrate_new(made, migrations());
    }
    {
      Logbook logbook(Database(file.temporary(), Database::Access::existing, path));
      Transaction transaction(logbook.database_);
      Bow named = bow;
      named.name = conditions.bow;
      logbook.add_bow(named);
      logbook.start_session(conditions);
      transaction.commit();
    }
    if (!file.place_new()) throw LogbookFailure(path + ": another program made this file just now, and it is not written over");
  } catch (const FileFailure& failure) {
    throw LogbookFailure(failure.what());
  }
  return Logbook(path);
}

void Logbook::copy_to(const std::string& path) const {
  if (is_there(path) || !database_.copy_to(path)) {
    throw LogbookFailure(fmt::format("{}: this file exists and is not written over; give another name for the copy", path));
  }
}

std::optional<std::string> Logbook::what_is_wrong() const {
  Statement row = database_.prepare("PRAGMA integrity_check");
  while (row.step()) {
    if (row.text(0) != "ok") return row.text(0);
  }
  Statement key = database_.prepare("PRAGMA foreign_key_check");
  if (key.step()) return "a row of the table " + key.text(0) + " belongs to nothing";
  // Of before the rule that keeps such rows out.
  Statement other = database_.prepare("SELECT block.number FROM block JOIN setup ON setup.id = block.setup "
                                      "JOIN session ON session.id = block.session WHERE setup.bow <> session.bow");
  if (other.step()) return fmt::format("the set-up of block {} belongs to another bow", other.integer(0));
  return std::nullopt;
}

void Logbook::check_whole() const {
  const auto wrong = what_is_wrong();
  if (!wrong) return;
  throw LogbookFailure(fmt::format("{}: the logbook is damaged ({}); keep this file as it is and go on with your last copy of it, or "
                                   "with what `ringfall export` can still read", database_.path(), *wrong));
}

}  // namespace ringfall::logbook
