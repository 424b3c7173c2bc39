// SPDX-License-Identifier: GPL-3.0-or-later
// Bows and their set-ups.
#include <fmt/format.h>

#include "base/failure.h"
#include "base/nearest.h"
#include "logbook/fitting_rows.h"
#include "logbook/logbook.h"
#include "logbook/names.h"

namespace ringfall::logbook {
namespace {

constexpr const char* kSetupsOfBow =
    "SELECT setup.name, changed, baseline, added_mass_kg, bow.name, setup.draw_weight_n, setup.brace_height_m, "
    "setup.arrow_mass_kg, setup.string, setup.silencers, setup.note, setup.id FROM setup JOIN bow ON bow.id = setup.bow "
    "WHERE ?1 IS NULL OR setup.bow = ?1 ORDER BY setup.id";

Fittings read_fittings(const Statement& row, int first, Statement& parts) {
  return {row.maybe_real(first), row.maybe_real(first + 1), row.maybe_real(first + 2), row.text(first + 3), row.text(first + 4),
          read_parts(parts)};
}

std::vector<SetUp> read_setups(const Database& database, std::optional<std::int64_t> bow_id) {
  std::vector<SetUp> setups;
  Statement parts = database.prepare("SELECT kind, what, place, mass_kg FROM part WHERE setup = ? ORDER BY id");
  Statement row = database.prepare(kSetupsOfBow);
  row.with(bow_id);
  while (row.step()) {
    setups.push_back({row.text(0), row.text(1), row.integer(2) != 0, row.maybe_real(3), row.text(4),
                      read_fittings(row, 5, parts.with(row.integer(11))), row.text(10)});
  }
  return setups;
}

/// The baseline of a bow is one set-up; this hands it on.
void give_up_baseline(const Database& database, std::int64_t bow_id) {
  database.prepare("UPDATE setup SET baseline = 0 WHERE bow = ?").with(bow_id).run();
}

void refuse_taken(Statement& row, const std::string& name, const char* what) {
  if (row.step()) throw RequestFailure(fmt::format("the {} '{}' is there already; give another name", what, name));
}

}  // namespace

std::vector<Bow> Logbook::bows() const {
  std::vector<Bow> bows;
  Transaction reading(database_, Transaction::Kind::read);
  Statement parts = database_.prepare("SELECT kind, what, place, mass_kg FROM part WHERE bow = ? ORDER BY id");
  Statement row = database_.prepare("SELECT id, name, draw_weight_n, brace_height_m, arrow_mass_kg, string, silencers, note "
                                    "FROM bow ORDER BY id");
  while (row.step()) bows.push_back({row.text(1), read_fittings(row, 2, parts.with(row.integer(0))), row.text(7)});
  return bows;
}

void Logbook::add_bow(const Bow& bow) {
  need_name(bow.name, "bow");
  Transaction transaction(database_);
  refuse_taken(database_.prepare("SELECT 1 FROM bow WHERE name = ?").with(bow.name), bow.name, "bow");
  const Fittings& on = bow.fittings;
  database_.prepare("INSERT INTO bow (name, draw_weight_n, brace_height_m, arrow_mass_kg, string, silencers, note) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?)")
      .with(bow.name, on.draw_weight_n, on.brace_height_m, on.arrow_mass_kg, on.string, on.silencers, bow.note)
      .run();
  write_parts(database_, database_.last_row(), std::nullopt, on.parts);
  transaction.commit();
}

void Logbook::change_bow(const std::string& name, const Bow& bow) {
  Transaction transaction(database_);
  need_name(bow.name, "bow");
  const std::int64_t id = need_bow(name);
  refuse_taken(database_.prepare("SELECT 1 FROM bow WHERE name = ? AND id <> ?").with(bow.name, id), bow.name, "bow");
  const Fittings& on = bow.fittings;
  database_.prepare("UPDATE bow SET name = ?, draw_weight_n = ?, brace_height_m = ?, arrow_mass_kg = ?, string = ?, silencers = ?, "
                    "note = ? WHERE id = ?")
      .with(bow.name, on.draw_weight_n, on.brace_height_m, on.arrow_mass_kg, on.string, on.silencers, bow.note, id)
      .run();
  write_parts(database_, id, std::nullopt, on.parts);
  transaction.commit();
}

std::vector<SetUp> Logbook::setups() const {
  Transaction reading(database_, Transaction::Kind::read);
  return read_setups(database_, std::nullopt);
}

std::vector<SetUp> Logbook::setups(const std::string& bow) const {
  Transaction reading(database_, Transaction::Kind::read);
  return read_setups(database_, need_bow(bow));
}

void Logbook::add_setup(const SetUp& setup) {
  Transaction transaction(database_);
  const std::int64_t bow_id = need_bow(setup.bow.empty() ? last_bow() : setup.bow);
  need_name(setup.name, "set-up");
  refuse_taken(database_.prepare("SELECT 1 FROM setup WHERE bow = ? AND name = ?").with(bow_id, setup.name), setup.name, "set-up");
  const bool first = !database_.prepare("SELECT 1 FROM setup WHERE bow = ?").with(bow_id).step();
  if (setup.baseline) give_up_baseline(database_, bow_id);
  const Fittings& on = setup.fittings;
  database_.prepare("INSERT INTO setup (bow, name, changed, baseline, added_mass_kg, draw_weight_n, brace_height_m, arrow_mass_kg, "
                    "string, silencers, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .with(bow_id, setup.name, setup.changed, first || setup.baseline ? 1 : 0, setup.added_mass_kg, on.draw_weight_n,
            on.brace_height_m, on.arrow_mass_kg, on.string, on.silencers, setup.note)
      .run();
  write_parts(database_, std::nullopt, database_.last_row(), on.parts);
  transaction.commit();
}

void Logbook::change_setup(const std::string& name, const SetUp& setup) {
  Transaction transaction(database_);
  const std::int64_t bow_id = need_bow(setup.bow.empty() ? last_bow() : setup.bow);
  const std::int64_t id = need_setup(bow_id, name);
  need_name(setup.name, "set-up");
  refuse_taken(database_.prepare("SELECT 1 FROM setup WHERE bow = ? AND name = ? AND id <> ?").with(bow_id, setup.name, id), setup.name,
               "set-up");
  Statement is_baseline = database_.prepare("SELECT baseline FROM setup WHERE id = ?");
  is_baseline.with(id).step();
  if (is_baseline.integer(0) != 0 && !setup.baseline) {
    throw RequestFailure(fmt::format("'{}' is the baseline; make another set-up the baseline instead", name));
  }
  is_baseline.with();
  if (setup.baseline) give_up_baseline(database_, bow_id);
  const Fittings& on = setup.fittings;
  database_.prepare("UPDATE setup SET name = ?, changed = ?, baseline = ?, added_mass_kg = ?, draw_weight_n = ?, "
                    "brace_height_m = ?, arrow_mass_kg = ?, string = ?, silencers = ?, note = ? WHERE id = ?")
      .with(setup.name, setup.changed, setup.baseline ? 1 : 0, setup.added_mass_kg, on.draw_weight_n, on.brace_height_m,
            on.arrow_mass_kg, on.string, on.silencers, setup.note, id)
      .run();
  write_parts(database_, std::nullopt, id, on.parts);
  transaction.commit();
}

void Logbook::remove_setup(const std::string& bow, const std::string& name) {
  Transaction transaction(database_);
  const std::int64_t bow_id = need_bow(bow.empty() ? last_bow() : bow);
  const std::int64_t id = need_setup(bow_id, name);
  Statement block = database_.prepare("SELECT min(number), count(*) FROM block WHERE setup = ?");
  block.with(id).step();
  if (block.integer(1) > 0) {
    const std::string more = block.integer(1) > 1 ? fmt::format(" and {} more were", block.integer(1) - 1) : " was";
    throw RequestFailure(fmt::format("block {}{} shot with '{}'; put {} into another set-up first (`ringfall block`)",
                                     block.integer(0), more, name, block.integer(1) > 1 ? "them" : "it"));
  }
  block.with();
  Statement others = database_.prepare("SELECT (SELECT baseline FROM setup WHERE id = ?1) AND count(*) > 1 FROM setup WHERE bow = ?2");
  others.with(id, bow_id).step();
  if (others.integer(0) != 0) {
    throw RequestFailure(fmt::format("'{}' is the baseline that others are held against; make another set-up the baseline first", name));
  }
  others.with();
  database_.prepare("DELETE FROM setup WHERE id = ?").with(id).run();
  transaction.commit();
}

std::int64_t Logbook::need_bow(const std::string& name) const {
  Statement row = database_.prepare("SELECT id FROM bow WHERE name = ?");
  if (row.with(name).step()) return row.integer(0);
  std::vector<std::string> names;
  Statement known = database_.prepare("SELECT name FROM bow ORDER BY id");
  while (known.step()) names.push_back(known.text(0));
  throw RequestFailure(fmt::format("there is no bow '{}'{}", name, did_you_mean(name, names)));
}

std::int64_t Logbook::need_setup(std::int64_t bow_id, const std::string& name) const {
  Statement row = database_.prepare("SELECT id FROM setup WHERE bow = ? AND name = ?");
  if (row.with(bow_id, name).step()) return row.integer(0);
  std::vector<std::string> names;
  for (const SetUp& known : read_setups(database_, bow_id)) names.push_back(known.name);
  throw RequestFailure(fmt::format("there is no set-up '{}'{}", name, did_you_mean(name, names)));
}

}  // namespace ringfall::logbook
