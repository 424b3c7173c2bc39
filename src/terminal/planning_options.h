// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "terminal/requests.h"

namespace CLI {
class App;
}

namespace ringfall::terminal {

/// What the command line of plan, season and hunting fills; texts that still need their units understood beside it.
struct PlanningReading {
  PlanRequest plan;
  SeasonRequest season;
  HuntingRequest hunting;
  std::string temperature;
  std::string arrow_speed;
  std::string mark;
  std::vector<std::string> distances;
};

void add_planning_verbs(CLI::App& app, PlanningReading& reading);
/// Was one of these verbs asked for?
bool is_planning(const CLI::App& app);
/// RequestFailure: a value that makes no sense.
Request planning_request(const CLI::App& app, PlanningReading& reading);

}  // namespace ringfall::terminal
