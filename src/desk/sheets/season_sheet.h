// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "compare/distance_estimate.h"
#include "compare/season.h"
#include "desk/sheets/lane.h"
#include "logbook/logbook.h"

namespace ringfall::desk {

/// What a set-up's shots would be at a distance.
struct HeardAfar {
  std::string setup;
  std::size_t shots = 0;
  bool calibrated = false;
  std::vector<compare::DistanceEstimate> at;  ///< 10, 20, 30, 40 m
};

struct SeasonSheet {
  std::vector<compare::SetUpSeason> seasons;
  std::vector<HeardAfar> afar;
};

/// Reads the season and up to ten shots' sound a set-up. Null when it was cancelled.
std::shared_ptr<const SeasonSheet> read_season(const logbook::Logbook& logbook, Ticket& ticket);

}  // namespace ringfall::desk
