// SPDX-License-Identifier: GPL-3.0-or-later
// What is known only after a shot or block was kept, while one listens.
#include <fmt/format.h>

#include "base/failure.h"
#include "logbook/finding_rows.h"
#include "logbook/logbook.h"

namespace ringfall::logbook {

void Logbook::set_places(std::int64_t shot_id, double onset_s, const shot::Clip& places) {
  Transaction transaction(database_);
  need_shot(shot_id);
  Statement row = database_.prepare(
      "UPDATE shot SET onset_s = ?1, onset_sample = ?2, onset_fraction = ?3, impact_sample = ?4, next_shot_sample = ?5 WHERE id = ?6 "
      "AND (onset_s, onset_sample, onset_fraction, impact_sample, next_shot_sample) IS NOT (?1, ?2, ?3, ?4, ?5) RETURNING id");
  row.with(onset_s, places.onset_sample, places.onset_fraction, places.impact_sample, places.next_shot_sample, shot_id);
  const bool moved = row.step();
  if (moved) row.run();
  if (moved) forget_numbers(shot_id);
  transaction.commit();
}

void Logbook::set_block_findings(std::int64_t block, const std::vector<Finding>& findings) {
  Transaction transaction(database_);
  Statement row = database_.prepare("SELECT id FROM block WHERE number = ?");
  if (!row.with(block).step()) {
    throw RequestFailure(fmt::format("there is no block {}; `ringfall list {}` shows those there are", block, database_.path()));
  }
  const std::int64_t id = row.integer(0);
  database_.prepare("DELETE FROM finding WHERE block = ?").with(id).run();
  write_findings(database_, id, std::nullopt, findings);
  transaction.commit();
}

}  // namespace ringfall::logbook
