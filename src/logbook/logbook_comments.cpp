// SPDX-License-Identifier: GPL-3.0-or-later
// What people say: comments, drops, corrections of the finder.
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "logbook/now.h"

namespace ringfall::logbook {
namespace {

constexpr const char* kNotAShot = "not a shot";

// In the order of Correction::Kind.
constexpr std::array<std::string_view, 3> kCorrections = {"not_a_shot", "missed_shot", "moved_edge"};

void insert_comment(const Database& database, std::optional<std::int64_t> block_id, std::optional<std::int64_t> shot_id,
                    const Comment& comment) {
  // Blind: the session is, and of no shot that is spoken of the numbers could be seen so far. From now on they can (a trigger).
  database.prepare(fmt::format(
                       "INSERT INTO comment (block, shot, said_at, blind, loud, hum, ping, feel, words) SELECT ?1, ?2, {}, "
                       "session.blind AND NOT EXISTS (SELECT 1 FROM shot WHERE NOT covered AND "
                       "(id = ?2 OR (?2 IS NULL AND shot.block = block.id))), "
                       "?3, ?4, ?5, ?6, ?7 FROM block JOIN session ON session.id = block.session "
                       "WHERE block.id = coalesce(?1, (SELECT block FROM shot WHERE id = ?2))", kNow))
      .with(block_id, shot_id, comment.loud, comment.hum, comment.ping, comment.feel, comment.words)
      .run();
}

/// Moves the edge of a shot to this place of its recording.
void put_edge(const Database& database, std::int64_t shot_id, double edge_s) {
  Statement row = database.prepare("SELECT sample_rate_hz FROM shot JOIN block ON block.id = shot.block WHERE shot.id = ?");
  row.with(shot_id).step();
  const double position = edge_s * row.real(0);
  row.with();
  // A whole sample stays one: 2.51 s at 48 kHz is a hair under sample 120480 in binary numbers.
  const double nearest = std::round(position);
  const bool on_sample = std::abs(position - nearest) < 1e-6;
  const double whole = on_sample ? nearest : std::floor(position);
  database.prepare("UPDATE shot SET onset_s = ?, onset_sample = ?, onset_fraction = ? WHERE id = ?")
      .with(edge_s, static_cast<std::int64_t>(whole), on_sample ? 0.0 : position - whole, shot_id)
      .run();
}

/// The same shot must not count twice: it stays out while another one that counts holds its sound.
void refuse_second_shot(const Database& database, std::int64_t shot_id) {
  Statement row = database.prepare(
      "SELECT same.id, other.number FROM shot AS mine JOIN shot AS same ON length(same.clip) = length(mine.clip) AND same.id <> mine.id "
      "AND same.clip = mine.clip JOIN block AS other ON other.id = same.block "
      "WHERE mine.id = ? AND same.dropped IS NULL AND other.dropped IS NULL LIMIT 1");
  if (!row.with(shot_id).step()) return;
  throw RequestFailure(fmt::format("shot {} of block {} has the very sound of shot {}, and the same shot must not count twice; drop shot {} "
                                   "first", row.integer(0), row.integer(1), shot_id, row.integer(0)));
}

}  // namespace

std::int64_t Logbook::add_comment(std::int64_t shot_id, const Comment& comment) {
  Transaction transaction(database_);
  need_shot(shot_id);
  insert_comment(database_, std::nullopt, shot_id, comment);
  const std::int64_t id = database_.last_row();
  transaction.commit();
  return id;
}

std::int64_t Logbook::add_block_comment(std::int64_t block, const Comment& comment) {
  Transaction transaction(database_);
  insert_comment(database_, need_block(block), std::nullopt, comment);
  const std::int64_t id = database_.last_row();
  transaction.commit();
  return id;
}

void Logbook::change_comment(std::int64_t comment_id, const Comment& comment) {
  // Not blind any more: it uncovered the numbers itself.
  Statement row = database_.prepare(fmt::format("UPDATE comment SET loud = ?, hum = ?, ping = ?, feel = ?, words = ?, "
                                                "changed_at = {}, blind = 0 WHERE id = ? RETURNING id", kNow));
  if (row.with(comment.loud, comment.hum, comment.ping, comment.feel, comment.words, comment_id).step()) return row.run();
  throw RequestFailure(fmt::format("there is no comment {}; `ringfall list {} --json` shows their ids", comment_id, path()));
}

void Logbook::remove_comment(std::int64_t comment_id) {
  Statement row = database_.prepare("DELETE FROM comment WHERE id = ? RETURNING id");
  if (row.with(comment_id).step()) return row.run();
  throw RequestFailure(fmt::format("there is no comment {}; `ringfall list {} --json` shows their ids", comment_id, path()));
}

void Logbook::put_comment_back(std::int64_t shot_id, const Comment& comment) {
  Transaction transaction(database_);
  need_shot(shot_id);
  const auto changed_at = comment.changed_at.empty() ? std::nullopt : std::optional(comment.changed_at);
  database_.prepare("INSERT OR REPLACE INTO comment (id, shot, said_at, changed_at, blind, loud, hum, ping, feel, words) "
                    "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
      .with(comment.id, shot_id, comment.said_at, changed_at, static_cast<std::int64_t>(comment.blind), comment.loud, comment.hum,
            comment.ping, comment.feel, comment.words)
      .run();
  transaction.commit();
}

void Logbook::drop_shot(std::int64_t shot_id, const std::string& reason) {
  Transaction transaction(database_);
  need_shot(shot_id);
  if (reason.empty()) refuse_second_shot(database_, shot_id);
  database_.prepare("UPDATE shot SET dropped = ? WHERE id = ?").with(reason_of(reason), shot_id).run();
  transaction.commit();
}

void Logbook::say_not_a_shot(std::int64_t shot_id) {
  Transaction transaction(database_);
  need_shot(shot_id);
  database_.prepare(fmt::format("INSERT INTO correction (block, shot, kind, found_s, said_at, dropped_before) "
                                "SELECT block, id, 'not_a_shot', onset_s, {}, dropped FROM shot WHERE id = ?", kNow))
      .with(shot_id)
      .run();
  drop_shot(shot_id, kNotAShot);
  transaction.commit();
}

void Logbook::move_edge(std::int64_t shot_id, double edge_s) {
  Transaction transaction(database_);
  const CodedClip kept = clip(shot_id);
  const double rate_hz = kept.places.sample_rate_hz;
  if (!(edge_s * rate_hz >= static_cast<double>(kept.places.first_sample)) || !(std::abs(edge_s - kept.onset_s) < 1.0)) {
    throw RequestFailure(fmt::format("the edge of shot {} can be moved by less than 1 s, and inside its sound", shot_id));
  }
  database_.prepare(fmt::format("INSERT INTO correction (block, shot, kind, found_s, edge_s, said_at) SELECT block, id, 'moved_edge', "
                                "onset_s, ?, {} FROM shot WHERE id = ?", kNow))
      .with(edge_s, shot_id)
      .run();
  put_edge(database_, shot_id, edge_s);
  forget_numbers(shot_id);
  transaction.commit();
}

void Logbook::say_missed_shot(std::int64_t block, double edge_s, std::optional<std::int64_t> shot_id) {
  Transaction transaction(database_);
  const std::int64_t block_id = need_block(block);
  if (shot_id) need_shot(*shot_id);
  database_.prepare(fmt::format("INSERT INTO correction (block, shot, kind, edge_s, said_at) VALUES (?, ?, 'missed_shot', ?, {})", kNow))
      .with(block_id, shot_id, edge_s)
      .run();
  transaction.commit();
}

void Logbook::undo_correction(std::int64_t shot_id) {
  Transaction transaction(database_);
  need_shot(shot_id);
  Statement last = database_.prepare("SELECT id, kind, found_s, dropped_before FROM correction WHERE shot = ? AND "
                                     "kind <> 'missed_shot' ORDER BY id DESC LIMIT 1");
  if (!last.with(shot_id).step()) throw RequestFailure(fmt::format("no correction of shot {} can be taken back", shot_id));
  const std::int64_t id = last.integer(0);
  const bool moved = last.text(1) == "moved_edge";
  const double found_s = last.real(2);
  const std::string dropped_before = last.text(3);
  last.with();
  database_.prepare("DELETE FROM correction WHERE id = ?").with(id).run();
  if (moved) {
    put_edge(database_, shot_id, found_s);
    forget_numbers(shot_id);
  } else {
    if (dropped_before.empty()) refuse_second_shot(database_, shot_id);
    // Only as long as that is why it is left out: a reason given since, or taking it in again, stays.
    database_.prepare("UPDATE shot SET dropped = ? WHERE id = ? AND dropped = ?")
        .with(reason_of(dropped_before), shot_id, std::string_view(kNotAShot))
        .run();
  }
  transaction.commit();
}

void Logbook::remove_missed_shot(std::int64_t shot_id) {
  Transaction transaction(database_);
  need_shot(shot_id);
  if (!database_.prepare("SELECT 1 FROM correction WHERE shot = ? AND kind = 'missed_shot'").with(shot_id).step()) {
    throw RequestFailure(fmt::format("shot {} was found, not added as missed; leave it out instead", shot_id));
  }
  if (database_.prepare("SELECT 1 FROM comment WHERE shot = ?").with(shot_id).step()) {
    throw RequestFailure(fmt::format("shot {} has comments; take them away first, or leave it out instead", shot_id));
  }
  database_.prepare("DELETE FROM shot WHERE id = ?").with(shot_id).run();  // what hangs on it goes with it
  transaction.commit();
}

std::vector<Correction> Logbook::corrections() const {
  std::vector<Correction> corrections;
  Statement row = database_.prepare("SELECT kind, block.number, shot, found_s, edge_s, said_at FROM correction "
                                    "JOIN block ON block.id = correction.block ORDER BY correction.id");
  while (row.step()) {
    Correction correction{Correction::Kind::not_a_shot, row.integer(1), row.maybe_integer(2), row.maybe_real(3), row.maybe_real(4),
                          row.text(5)};
    for (std::size_t k = 0; k < kCorrections.size(); ++k) {
      if (kCorrections[k] == row.text(0)) correction.kind = static_cast<Correction::Kind>(k);
    }
    corrections.push_back(std::move(correction));
  }
  return corrections;
}

void Logbook::need_shot(std::int64_t shot_id) const {
  if (database_.prepare("SELECT 1 FROM shot WHERE id = ?").with(shot_id).step()) return;
  throw RequestFailure(fmt::format("there is no shot {}; `ringfall list {}` shows those there are", shot_id, database_.path()));
}

}  // namespace ringfall::logbook
