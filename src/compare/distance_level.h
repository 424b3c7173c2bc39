// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/distance_estimate.h"
#include "compare/season_pool.h"
#include "compare/session.h"
#include "shot/settings.h"

namespace ringfall::compare {

/// How loud a set-up is at the microphone, in octaves.
struct LevelAtMark {
  std::vector<OctaveLevel> octaves;    ///< mean of the shots' energies; those octaves that every shot's sample rate holds
  std::size_t shots = 0;               ///< they are the mean of
  std::size_t other_scale = 0;         ///< shots left out: levels of two scales have no mean
  bool calibrated = false;             ///< of those taken in
  std::optional<double> deviation_db;  ///< standard deviation of their sound exposure; nullopt: one shot
  std::optional<double> arrow_speed_m_s;  ///< mean of the shots that know it
};

/// Of the shots that count and have a level: the calibrated ones when there are any, else all. nullopt: stopped by clip_of. Definition: docs/measures/season.md#at-a-distance. Tests: compare.DistanceLevel.*
std::optional<LevelAtMark> level_at_mark(const Session& session, const std::string& setup, const shot::MeasureSettings& settings,
                                         const ClipOf& clip_of);

}  // namespace ringfall::compare
