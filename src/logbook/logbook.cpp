// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/logbook.h"

#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "base/failure.h"
#include "base/nearest.h"
#include "logbook/finding_rows.h"
#include "logbook/migrations.h"

namespace ringfall::logbook {
namespace {

constexpr const char* kNow = "strftime('%Y-%m-%dT%H:%M:%SZ', 'now')";

/// An empty reason is none.
std::optional<std::string> reason_of(const std::string& text) { return text.empty() ? std::nullopt : std::optional(text); }

}  // namespace

Logbook::Logbook(Database database) : database_(std::move(database)) {
  migrate(database_, migrations());
  database_.run("PRAGMA journal_mode = WAL");
}

Logbook Logbook::start(const std::string& path, const Conditions& conditions) {
  if (std::filesystem::exists(path)) {
    throw LogbookFailure(fmt::format("{}: this file exists; add recordings to it with `ringfall add`, or give another name", path));
  }
  Logbook logbook(Database(path, Database::Access::create));
  const Database& database = logbook.database_;
  Transaction transaction(database);
  database.prepare("INSERT INTO bow (name) VALUES (?)").with(conditions.bow).run();
  database.prepare(fmt::format("INSERT INTO session (started_at, place, distance_m, temperature_c, chain, full_scale_db_spl) "
                               "VALUES ({}, ?, ?, ?, ?, ?)", kNow))
      .with(conditions.place, conditions.distance_m, conditions.temperature_c, conditions.chain, conditions.full_scale_db_spl)
      .run();
  transaction.commit();
  return logbook;
}

Conditions Logbook::conditions() const {
  Statement row = database_.prepare(
      "SELECT bow.name, started_at, place, distance_m, temperature_c, chain, full_scale_db_spl FROM session, bow "
      "ORDER BY session.id DESC, bow.id LIMIT 1");
  if (!row.step()) {
    throw LogbookFailure(fmt::format("{}: its making was interrupted, it holds nothing; delete it and make it again with "
                                     "`ringfall start`", database_.path()));
  }
  return {row.text(0), row.text(1), row.text(2), row.maybe_real(3), row.real(4), row.text(5), row.maybe_real(6)};
}

std::vector<SetUp> Logbook::setups() const {
  std::vector<SetUp> setups;
  Statement row = database_.prepare("SELECT name, changed, baseline, added_mass_kg FROM setup ORDER BY id");
  while (row.step()) setups.push_back({row.text(0), row.text(1), row.integer(2) != 0, row.maybe_real(3)});
  return setups;
}

void Logbook::add_setup(const SetUp& setup) {
  database_.prepare("INSERT INTO setup (bow, name, changed, baseline, added_mass_kg) SELECT min(bow.id), ?, ?, "
                    "NOT EXISTS (SELECT 1 FROM setup), ? FROM bow")
      .with(setup.name, setup.changed, setup.added_mass_kg)
      .run();
}

std::int64_t Logbook::add_block(const NewBlock& block) {
  Transaction transaction(database_);
  Statement setup = database_.prepare("SELECT id FROM setup WHERE name = ?");
  if (!setup.with(block.setup).step()) {
    std::vector<std::string> names;
    for (const SetUp& known : setups()) names.push_back(known.name);
    throw RequestFailure(fmt::format("there is no set-up '{}'{}", block.setup, did_you_mean(block.setup, names)));
  }
  const std::int64_t number = database_.integer("SELECT coalesce(max(number), 0) + 1 FROM block");
  database_.prepare("INSERT INTO block (session, setup, number, file, sample_rate_hz, note, dropped) "
                    "SELECT max(id), ?, ?, ?, ?, ?, ? FROM session")
      .with(setup.integer(0), number, block.file, block.sample_rate_hz, block.note, reason_of(block.dropped))
      .run();
  write_findings(database_, database_.last_row(), std::nullopt, block.findings);
  transaction.commit();
  return number;
}

std::int64_t Logbook::add_clip(std::int64_t block, const CodedClip& clip) {
  Transaction transaction(database_);
  database_.prepare("INSERT INTO shot (block, number, onset_s, coding, clip, first_sample, onset_sample, onset_fraction, "
                    "impact_sample, next_shot_sample) VALUES ((SELECT id FROM block WHERE number = ?), ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .with(block, clip.number, clip.onset_s, clip.coding, Blob{clip.bytes}, clip.places.first_sample, clip.places.onset_sample,
            clip.places.onset_fraction, clip.places.impact_sample, clip.places.next_shot_sample)
      .run();
  const std::int64_t id = database_.last_row();
  transaction.commit();
  return id;
}

void Logbook::add_comment(std::int64_t shot_id, const Comment& comment) {
  need_shot(shot_id);
  database_.prepare(fmt::format("INSERT INTO comment (shot, said_at, loud, hum, ping, feel, words) VALUES (?, {}, ?, ?, ?, ?, ?)",
                                kNow))
      .with(shot_id, comment.loud, comment.hum, comment.ping, comment.feel, comment.words)
      .run();
}

void Logbook::drop_shot(std::int64_t shot_id, const std::string& reason) {
  need_shot(shot_id);
  database_.prepare("UPDATE shot SET dropped = ? WHERE id = ?").with(reason_of(reason), shot_id).run();
}

void Logbook::drop_block(std::int64_t block, const std::string& reason) {
  Statement row = database_.prepare("UPDATE block SET dropped = ? WHERE number = ? RETURNING id");
  if (!row.with(reason_of(reason), block).step()) {
    throw RequestFailure(fmt::format("there is no block {}; `ringfall list {}` shows those there are", block, database_.path()));
  }
  row.run();
}

void Logbook::need_shot(std::int64_t shot_id) const {
  if (database_.prepare("SELECT 1 FROM shot WHERE id = ?").with(shot_id).step()) return;
  throw RequestFailure(fmt::format("there is no shot {}; `ringfall list {}` shows those there are", shot_id, database_.path()));
}

void Logbook::check_whole() const {
  Statement row = database_.prepare("PRAGMA integrity_check");
  std::string wrong;
  while (row.step() && wrong.empty()) {
    if (row.text(0) != "ok") wrong = row.text(0);
  }
  Statement key = database_.prepare("PRAGMA foreign_key_check");
  if (wrong.empty() && key.step()) wrong = "a row of the table " + key.text(0) + " belongs to nothing";
  if (wrong.empty()) return;
  throw LogbookFailure(fmt::format("{}: the logbook is damaged ({}); keep this file as it is and go on with your last copy of it",
                                   database_.path(), wrong));
}

}  // namespace ringfall::logbook
