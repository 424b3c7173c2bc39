// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/distance_level.h"

#include <algorithm>
#include <map>
#include <utility>

#include "base/units.h"
#include "shot/octave_exposure.h"
#include "shot/pressure_clip.h"
#include "stats/summary.h"

namespace ringfall::compare {

std::optional<LevelAtMark> level_at_mark(const Session& session, const std::string& setup, const shot::MeasureSettings& settings,
                                         const ClipOf& clip_of) {
  LevelAtMark level;
  std::vector<std::pair<std::size_t, std::size_t>> calibrated;
  std::vector<std::pair<std::size_t, std::size_t>> uncalibrated;
  for (std::size_t block = 0; block < session.blocks.size(); ++block) {
    const SessionBlock& own = session.blocks[block];
    if (own.setup != setup || !own.dropped.empty()) continue;
    for (std::size_t shot = 0; shot < own.shots.size(); ++shot) {
      if (!own.shots[shot].shot.levels.exposure_db) continue;  // a finding voided its levels
      (own.facts.calibrated.value_or(false) ? calibrated : uncalibrated).emplace_back(block, shot);
    }
  }
  level.calibrated = !calibrated.empty();
  level.other_scale = level.calibrated ? uncalibrated.size() : 0;
  const auto taken = level.calibrated ? std::move(calibrated) : std::move(uncalibrated);
  std::map<double, std::vector<double>> energies;
  std::vector<double> exposures_db;
  std::vector<double> speeds_m_s;
  for (const auto& [block, shot] : taken) {
    const auto sound = clip_of(block, shot);
    if (!sound) return std::nullopt;
    const shot::PressureClip pressure(sound->clip, sound->scale);
    for (const auto& band : shot::octave_exposures(pressure, shot::undisturbed_s(sound->clip, settings), settings)) {
      energies[band.nominal_hz].push_back(db_to_power(band.exposure_db + sound->scale.printed_offset_db()));
    }
    const shot::Shot& measured = session.blocks[block].shots[shot].shot;
    exposures_db.push_back(*measured.levels.exposure_db);
    if (measured.arrow_speed_m_s) speeds_m_s.push_back(*measured.arrow_speed_m_s);
  }
  level.shots = taken.size();
  level.deviation_db = stats::standard_deviation(exposures_db);
  level.arrow_speed_m_s = stats::mean(speeds_m_s);
  for (const auto& [nominal_hz, values] : energies) {
    if (values.size() == level.shots) level.octaves.push_back({nominal_hz, power_to_db(*stats::mean(values))});
  }
  return level;
}

}  // namespace ringfall::compare
