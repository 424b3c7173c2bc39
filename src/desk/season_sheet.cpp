// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/season_sheet.h"

#include <map>

#include "base/units.h"
#include "compare/logbook_session.h"
#include "compare/season_pool.h"
#include "intake/kept_clip.h"
#include "shot/octave_exposure.h"
#include "shot/pressure_clip.h"
#include "stats/summary.h"

namespace ringfall::desk {
namespace {

constexpr std::size_t kShotsHeard = 10;
constexpr double kDistances_m[] = {10.0, 20.0, 30.0, 40.0};

/// Mean octave energies of a set-up's first shots whose levels count, carried to the distances.
HeardAfar heard_afar(const logbook::Logbook& logbook, const compare::Session& session, const std::string& setup, Ticket& ticket) {
  HeardAfar heard;
  heard.setup = setup;
  heard.calibrated = true;
  std::map<double, std::vector<double>> energies;
  std::vector<double> speeds_m_s;
  compare::DistanceQuestion question;
  const shot::MeasureSettings settings;
  for (const auto* block : session.kept()) {
    if (block->setup != setup) continue;
    const auto conditions = logbook.conditions(block->session);
    const shot::Scale scale{conditions.full_scale_db_spl};
    question.air.temperature_c = conditions.temperature_c;
    for (const auto& entry : block->shots) {
      if (heard.shots >= kShotsHeard || ticket.cancelled() || !entry.shot.levels.exposure_db) continue;
      const auto clip = intake::kept_clip(logbook, entry.id);
      const shot::PressureClip pressure(clip, scale);
      for (const auto& band : shot::octave_exposures(pressure, shot::undisturbed_s(clip, settings), settings)) {
        energies[band.nominal_hz].push_back(db_to_power(band.exposure_db + scale.printed_offset_db()));
      }
      ++heard.shots;
      heard.calibrated = heard.calibrated && scale.full_scale_db_spl.has_value();
      if (entry.shot.arrow_speed_m_s) speeds_m_s.push_back(*entry.shot.arrow_speed_m_s);
    }
  }
  for (const auto& [nominal_hz, values] : energies) question.at_mark.push_back({nominal_hz, power_to_db(*stats::mean(values))});
  question.arrow_speed_m_s = stats::mean(speeds_m_s);
  for (const double distance_m : kDistances_m) {
    if (const auto estimate = compare::estimate_at(question, distance_m)) heard.at.push_back(*estimate);
  }
  return heard;
}

}  // namespace

std::shared_ptr<const SeasonSheet> read_season(const logbook::Logbook& logbook, Ticket& ticket) {
  auto sheet = std::make_shared<SeasonSheet>();
  auto session = compare::logbook_session(logbook);
  const bool whole = compare::pool_each_session(session, {}, [&](std::size_t block, std::size_t shot) -> std::optional<compare::ScaledClip> {
    if (ticket.cancelled()) return std::nullopt;
    const auto& own = session.blocks[block];
    return compare::ScaledClip{intake::kept_clip(logbook, own.shots[shot].id), {logbook.conditions(own.session).full_scale_db_spl}};
  });
  if (!whole) return nullptr;
  sheet->seasons = compare::season_of(session, compare::evenings_of(logbook));
  const auto setups = session.setups();
  for (std::size_t k = 0; k < setups.size(); ++k) {
    sheet->afar.push_back(heard_afar(logbook, session, setups[k], ticket));
    if (ticket.cancelled()) return nullptr;
    ticket.report(static_cast<double>(k + 1) / static_cast<double>(setups.size()));
  }
  return sheet;
}

}  // namespace ringfall::desk
