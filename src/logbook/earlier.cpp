// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/earlier.h"

#include <fmt/format.h>

#include "base/failure.h"
#include "base/local_time.h"
#include "logbook/fitting_rows.h"
#include "logbook/now.h"

namespace ringfall::logbook {
namespace {

/// A bow or a set-up: one of the two.
struct Owner {
  std::optional<std::int64_t> bow;
  std::optional<std::int64_t> setup;
};

Owner owner_of(const Database& database, const std::string& bow, const std::optional<std::string>& setup) {
  Statement bow_row = database.prepare("SELECT id FROM bow WHERE name = ?");
  if (!bow_row.with(bow).step()) throw RequestFailure(fmt::format("there is no bow '{}'", bow));
  const std::int64_t bow_id = bow_row.integer(0);
  if (!setup) return {bow_id, std::nullopt};
  Statement setup_row = database.prepare("SELECT id FROM setup WHERE bow = ? AND name = ?");
  if (!setup_row.with(bow_id, *setup).step()) throw RequestFailure(fmt::format("there is no set-up '{}' of '{}'", *setup, bow));
  return {std::nullopt, setup_row.integer(0)};
}

std::string moment(const Database& database, const std::string& since) {
  if (!since.empty()) return since;
  Statement now = database.prepare(fmt::format("SELECT {}", kNow));
  now.step();
  return now.text(0);
}

}  // namespace

std::vector<Earlier> earlier_states(const Logbook& book, const std::string& bow, const std::optional<std::string>& setup) {
  const Database& database = book.database();
  Transaction reading(database, Transaction::Kind::read);
  const Owner owner = owner_of(database, bow, setup);
  Statement parts = database.prepare("SELECT kind, what, place, mass_kg FROM earlier_part WHERE earlier = ? ORDER BY id");
  Statement row = database.prepare("SELECT id, until, draw_weight_n, brace_height_m, arrow_mass_kg, string, silencers, changed, added_mass_kg "
                                   "FROM earlier WHERE bow IS ?1 AND setup IS ?2 ORDER BY until");
  row.with(owner.bow, owner.setup);
  std::vector<Earlier> states;
  while (row.step()) {
    states.push_back({row.text(1),
                      {row.maybe_real(2), row.maybe_real(3), row.maybe_real(4), row.text(5), row.text(6), read_parts(parts.with(row.integer(0)))},
                      row.text(7), row.maybe_real(8)});
  }
  return states;
}

void keep_state(const Logbook& book, const std::string& since, const std::string& bow, const std::optional<std::string>& setup) {
  const Database& database = book.database();
  Transaction transaction(database);
  const Owner owner = owner_of(database, bow, setup);
  const std::string until = moment(database, since);
  const auto before = earlier_states(book, bow, setup);
  const std::string from = before.empty() ? "" : before.back().until;
  if (from >= until) {
    throw RequestFailure(fmt::format("'{}' was changed on {} already; a change is said in its order of time", setup.value_or(bow), local_time_text(from)));
  }
  Statement shot = database.prepare("SELECT 1 FROM session JOIN bow ON bow.id = session.bow WHERE bow.name = ? AND started_at < ? AND started_at >= ? "
                                    "AND EXISTS (SELECT 1 FROM block WHERE block.session = session.id)");
  if (!shot.with(bow, until, from).step()) return;
  const bool of_bow = owner.bow.has_value();
  const char* table = of_bow ? "bow" : "setup";
  const std::int64_t id = of_bow ? *owner.bow : *owner.setup;
  database.prepare(fmt::format("INSERT INTO earlier (bow, setup, until, draw_weight_n, brace_height_m, arrow_mass_kg, string, silencers, changed, "
                               "added_mass_kg) SELECT ?1, ?2, ?3, draw_weight_n, brace_height_m, arrow_mass_kg, string, silencers, {} FROM {} "
                               "WHERE id = ?4",
                               of_bow ? "'', NULL" : "changed, added_mass_kg", table))
      .with(owner.bow, owner.setup, until, id)
      .run();
  database.prepare(fmt::format("INSERT INTO earlier_part (earlier, kind, what, place, mass_kg) SELECT ?1, kind, what, place, mass_kg FROM part "
                               "WHERE {} = ?2 ORDER BY id", table))
      .with(database.last_row(), id)
      .run();
  transaction.commit();
}

Fittings fittings_at(const Logbook& book, const std::string& bow, const std::string& when) {
  for (auto& state : earlier_states(book, bow)) {
    if (when < state.until) return state.fittings;
  }
  for (const Bow& now : book.bows()) {
    if (now.name == bow) return now.fittings;
  }
  throw RequestFailure(fmt::format("there is no bow '{}'", bow));
}

}  // namespace ringfall::logbook
