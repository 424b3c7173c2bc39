// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compare/distance_level.h"
#include "logbook/logbook.h"

namespace ringfall::work {

/// Whose word the air of an estimate is.
enum class AirFrom { asked, session, assumed };
struct AirWords {
  AirFrom temperature = AirFrom::asked;
  AirFrom humidity = AirFrom::asked;
  std::int64_t session = 0;  ///< the set-up's last one
};

/// What of the estimate is said; the rest is the logbook's.
struct AfarQuestion {
  std::vector<double> distances_m = {10.0, 20.0, 30.0, 40.0};
  double mark_m = 1.0;                     ///< grip to microphone
  std::optional<double> temperature_c;     ///< else that of the set-up's last session, else 20 C
  std::optional<double> humidity_percent;  ///< the same, else 50 %
  double pressure_kpa = 101.325;
  std::optional<double> arrow_speed_m_s;   ///< else the shots' own
};

/// A set-up at a distance.
struct Afar {
  compare::LevelAtMark heard;  ///< of all shots that count
  compare::DistanceQuestion question;
  AirWords words;
  std::vector<compare::DistanceEstimate> at;  ///< empty: no shot has a level that counts
};

/// The level of a set-up (named as in the session) at distances. nullopt: `clip_of` stopped it. RequestFailure: what a session says of its
/// air the estimate is not made for. Definition: docs/measures/season.md#at-a-distance. Tests: work.Afar.*, terminal.*
std::optional<Afar> level_afar(const logbook::Logbook& book, const compare::Session& session, const std::string& setup, const AfarQuestion& asked,
                               const compare::ClipOf& clip_of);

}  // namespace ringfall::work
