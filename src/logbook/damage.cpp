// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/damage.h"

#include "base/failure.h"

namespace ringfall::logbook {

std::vector<std::int64_t> unreadable_shots(const Database& database) {
  std::vector<std::int64_t> lost;
  Statement shot = database.prepare("SELECT id FROM shot ORDER BY id");
  Statement row = database.prepare("SELECT * FROM shot WHERE id = ?");
  while (shot.step()) {
    try {
      row.with(shot.integer(0)).step();
    } catch (const LogbookFailure&) {
      lost.push_back(shot.integer(0));
    }
  }
  return lost;
}

}  // namespace ringfall::logbook
