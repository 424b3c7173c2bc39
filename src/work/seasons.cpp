// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/seasons.h"

#include "compare/logbook_session.h"
#include "work/bow_changes.h"
#include "work/bow_choice.h"
#include "work/kept_sounds.h"

namespace ringfall::work {

std::optional<Season> read_season(const logbook::Logbook& book, const std::optional<std::string>& bow, const std::function<bool()>& go_on) {
  need_bow(book, bow);
  Season season;
  season.session = compare::logbook_session(book, bow);
  if (!compare::pool_each_session(season.session, {}, kept_sounds(book, season.session, go_on))) return std::nullopt;
  season.setups = compare::season_of(season.session, compare::evenings_of(book));
  for (const auto& setup : season.setups) season.changes.push_back(bow_changes(book, setup));
  return season;
}

}  // namespace ringfall::work
