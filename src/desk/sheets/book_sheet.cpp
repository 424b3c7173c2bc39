// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/book_sheet.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/check.h"
#include "base/failure.h"
#include "base/version.h"
#include "compare/logbook_session.h"

namespace ringfall::desk {

std::optional<std::size_t> BookSheet::index_of(std::int64_t shot_id) const {
  for (std::size_t k = 0; k < shots.size(); ++k) {
    if (shot(shots[k]).id == shot_id) return k;
  }
  return std::nullopt;
}

std::size_t BookSheet::setup_index(const std::string& name) const {
  for (std::size_t k = 0; k < setups.size(); ++k) {
    if (setups[k].name == name) return k;
  }
  return 0;
}

const logbook::Conditions& BookSheet::conditions_of(const logbook::KeptBlock& block) const {
  const auto own = std::ranges::find(sessions, block.session, &logbook::Conditions::session);
  check(own != sessions.end(), "a block belongs to a session of the logbook");
  return *own;
}

std::shared_ptr<const BookSheet> read_book(const logbook::Logbook& logbook, const std::string& path) {
  auto sheet = std::make_shared<BookSheet>();
  sheet->path = path;
  sheet->conditions = logbook.conditions();
  sheet->sessions = logbook.sessions();
  sheet->setups = logbook.setups();
  sheet->blocks = logbook.blocks();
  sheet->hidden = compare::hidden_shots(sheet->blocks);
  for (std::size_t block = 0; block < sheet->blocks.size(); ++block) {
    const auto& own = sheet->blocks[block];
    for (std::size_t shot = 0; shot < own.shots.size(); ++shot) {
      const auto& kept = own.shots[shot];
      // The window offers to save what can be read, instead of showing half of it.
      if (kept.unreadable) throw LogbookFailure(fmt::format("{}: the logbook is damaged under the sound of shot {}", path, kept.id));
      sheet->shots.push_back({block, shot});
      if (kept.analyser.empty()) continue;
      if (kept.analyser != kVersion) ++sheet->older;
    }
  }
  return sheet;
}

}  // namespace ringfall::desk
