// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/sheets/season_sheet.h"

#include <algorithm>

#include "compare/distance_level.h"
#include "compare/logbook_session.h"
#include "compare/season_pool.h"
#include "intake/kept_clip.h"

namespace ringfall::desk {
namespace {

constexpr std::size_t kShotsHeard = 10;
constexpr double kDistances_m[] = {10.0, 20.0, 30.0, 40.0};

/// A set-up's level from its latest shots whose levels count, carried to the distances through its last session's air.
HeardAfar heard_afar(const logbook::Logbook& logbook, const compare::Session& session, const std::string& setup, const compare::ClipOf& clip_of) {
  HeardAfar heard;
  heard.setup = setup;
  const auto level = compare::level_at_mark(session, setup, {}, clip_of, kShotsHeard);
  if (!level) return heard;
  heard.shots = level->shots;
  heard.calibrated = level->calibrated;
  compare::DistanceQuestion question;
  question.at_mark = level->octaves;
  question.arrow_speed_m_s = level->arrow_speed_m_s;
  int last = 0;
  for (const auto* block : session.kept()) {
    if (block->setup == setup) last = std::max(last, block->session);
  }
  const auto conditions = logbook.conditions(last);
  question.air.temperature_c = logbook::reckoned_temperature_c(conditions);
  if (conditions.humidity_percent) question.air.humidity_percent = *conditions.humidity_percent;
  for (const double distance_m : kDistances_m) {
    if (const auto estimate = compare::estimate_at(question, distance_m)) heard.at.push_back(*estimate);
  }
  return heard;
}

}  // namespace

std::shared_ptr<const SeasonSheet> read_season(const logbook::Logbook& logbook, Ticket& ticket) {
  auto sheet = std::make_shared<SeasonSheet>();
  auto session = compare::logbook_session(logbook);
  const compare::ClipOf clip_of = [&](std::size_t block, std::size_t shot) -> std::optional<compare::ScaledClip> {
    if (ticket.cancelled()) return std::nullopt;
    const auto& own = session.blocks[block];
    return compare::ScaledClip{intake::kept_clip(logbook, own.shots[shot].id), {logbook.conditions(own.session).full_scale_db_spl}};
  };
  if (!compare::pool_each_session(session, {}, clip_of)) return nullptr;
  sheet->seasons = compare::season_of(session, compare::evenings_of(logbook));
  const auto setups = session.setups();
  for (std::size_t k = 0; k < setups.size(); ++k) {
    sheet->afar.push_back(heard_afar(logbook, session, setups[k], clip_of));
    if (ticket.cancelled()) return nullptr;
    ticket.report(static_cast<double>(k + 1) / static_cast<double>(setups.size()));
  }
  return sheet;
}

}  // namespace ringfall::desk
