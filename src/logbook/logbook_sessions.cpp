// SPDX-License-Identifier: GPL-3.0-or-later
// Sessions and their blocks.
#include <fmt/format.h>

#include "base/failure.h"
#include "logbook/finding_rows.h"
#include "logbook/logbook.h"
#include "logbook/now.h"

namespace ringfall::logbook {
namespace {

std::vector<Conditions> read_sessions(const Database& database) {
  std::vector<Conditions> sessions;
  Statement row = database.prepare(
      "SELECT bow.name, started_at, place, distance_m, temperature_c, chain, full_scale_db_spl, humidity_percent, microphone, "
      "device, check_tone_db, blind, session.note, session.id FROM session JOIN bow ON bow.id = session.bow ORDER BY session.id");
  while (row.step()) {
    sessions.push_back({row.text(0), row.text(1), row.text(2), row.maybe_real(3), row.maybe_real(4), row.text(5), row.maybe_real(6),
                        row.maybe_real(7), row.text(8), row.text(9), row.maybe_real(10), row.integer(11) != 0, row.text(12),
                        row.integer(13)});
  }
  if (!sessions.empty()) return sessions;
  throw LogbookFailure(fmt::format("{}: its making was interrupted, it holds nothing; delete it and make it again with "
                                   "`ringfall start`", database.path()));
}

/// The same shots must not count twice: a dropped block stays out while another block that counts holds its sound.
void refuse_second_holder(const Database& database, std::int64_t block_id, std::int64_t number) {
  Statement row = database.prepare(
      "SELECT other.number FROM shot AS mine JOIN shot AS same ON length(same.clip) = length(mine.clip) AND same.id <> mine.id "
      "AND same.clip = mine.clip JOIN block AS other ON other.id = same.block "
      "WHERE mine.block = ?1 AND other.id <> ?1 AND other.dropped IS NULL AND mine.dropped IS NULL AND same.dropped IS NULL LIMIT 1");
  if (!row.with(block_id).step()) return;
  throw RequestFailure(fmt::format("block {} holds the sound of block {} too, and the same shots must not count twice; drop block {} "
                                   "first", row.integer(0), number, row.integer(0)));
}

}  // namespace

std::vector<Conditions> Logbook::sessions() const { return read_sessions(database_); }

Conditions Logbook::conditions() const { return read_sessions(database_).back(); }

Conditions Logbook::conditions(std::int64_t session) const {
  for (const Conditions& known : read_sessions(database_)) {
    if (known.session == session) return known;
  }
  throw RequestFailure(fmt::format("there is no session {}; `ringfall list {}` shows those there are", session, database_.path()));
}

std::string Logbook::last_bow() const { return conditions().bow; }

std::int64_t Logbook::start_session(const Conditions& said) {
  Transaction transaction(database_);
  database_.prepare(fmt::format("INSERT INTO session (bow, started_at, place, distance_m, temperature_c, humidity_percent, chain, "
                                "microphone, device, full_scale_db_spl, check_tone_db, blind, note) "
                                "VALUES (?, coalesce(?, {}), ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", kNow))
      .with(need_bow(said.bow.empty() ? last_bow() : said.bow), reason_of(said.started_at), said.place, said.distance_m, said.temperature_c,
            said.humidity_percent, said.chain, said.microphone, said.device, said.full_scale_db_spl, said.check_tone_db,
            said.blind ? 1 : 0, said.note)
      .run();
  const std::int64_t session = database_.last_row();
  transaction.commit();
  return session;
}

void Logbook::change_session(const Conditions& said) {
  Transaction transaction(database_);
  database_.prepare("UPDATE session SET place = ?, distance_m = ?, temperature_c = ?, humidity_percent = ?, chain = ?, microphone = ?, "
                    "device = ?, full_scale_db_spl = ?, check_tone_db = ?, blind = ?, note = ?, started_at = coalesce(?, started_at) "
                    "WHERE id = ?")
      .with(said.place, said.distance_m, said.temperature_c, said.humidity_percent, said.chain, said.microphone, said.device,
            said.full_scale_db_spl, said.check_tone_db, said.blind ? 1 : 0, said.note, reason_of(said.started_at), need_session(said.session))
      .run();
  transaction.commit();
}

std::int64_t Logbook::add_block(const NewBlock& block) {
  Transaction transaction(database_);
  const Conditions session = block.session == 0 ? conditions() : conditions(block.session);
  const std::int64_t setup = need_setup(need_bow(session.bow), block.setup);
  const std::int64_t number = database_.integer("SELECT coalesce(max(number), 0) + 1 FROM block");
  database_.prepare("INSERT INTO block (session, setup, number, file, sample_rate_hz, note, dropped, channel) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
      .with(session.session, setup, number, block.file, block.sample_rate_hz, block.note, reason_of(block.dropped), block.channel)
      .run();
  write_findings(database_, database_.last_row(), std::nullopt, block.findings);
  transaction.commit();
  return number;
}

void Logbook::change_block(std::int64_t block, const std::string& setup, const std::string& note) {
  Transaction transaction(database_);
  const std::int64_t id = need_block(block);
  Statement bow = database_.prepare("SELECT session.bow FROM block JOIN session ON session.id = block.session WHERE block.id = ?");
  bow.with(id).step();
  const std::int64_t setup_id = need_setup(bow.integer(0), setup);
  bow.with();
  database_.prepare("UPDATE block SET setup = ?, note = ? WHERE id = ?").with(setup_id, note, id).run();
  transaction.commit();
}

void Logbook::drop_block(std::int64_t block, const std::string& reason) {
  Transaction transaction(database_);
  const std::int64_t id = need_block(block);
  if (reason.empty()) refuse_second_holder(database_, id, block);
  database_.prepare("UPDATE block SET dropped = ? WHERE id = ?").with(reason_of(reason), id).run();
  transaction.commit();
}

std::optional<SoundPlace> Logbook::place_of(const CodedClip& clip) const {
  // The length is known without reading the sound.
  Statement row = database_.prepare("SELECT shot.id, block.number, setup.name FROM shot JOIN block ON block.id = shot.block "
                                    "JOIN setup ON setup.id = block.setup WHERE length(clip) = ?1 AND clip = ?2 "
                                    "AND block.dropped IS NULL ORDER BY shot.id LIMIT 1");
  row.with(static_cast<std::int64_t>(clip.bytes.size()), Blob{clip.bytes});
  if (!row.step()) return std::nullopt;
  return SoundPlace{row.integer(0), row.integer(1), row.text(2)};
}

std::int64_t Logbook::need_session(std::int64_t session) const { return conditions(session).session; }

std::int64_t Logbook::need_block(std::int64_t block) const {
  Statement row = database_.prepare("SELECT id FROM block WHERE number = ?");
  if (row.with(block).step()) return row.integer(0);
  throw RequestFailure(fmt::format("there is no block {}; `ringfall list {}` shows those there are", block, database_.path()));
}

}  // namespace ringfall::logbook
