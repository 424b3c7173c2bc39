// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/distance_level.h"
#include "compare/plan.h"
#include "compare/season.h"
#include "terminal/planning_requests.h"
#include "work/seasons.h"

namespace ringfall::terminal {

/// plan, season and hunting as one JSON object each (docs/output.md).
std::string plan_json(const PlanRequest& request, const compare::ShootingPlan& plan, const compare::ShotScatter& scatter,
                      const compare::Measure& measure);
std::string season_json(const work::Season& season);
std::string hunting_json(const HuntingRequest& request, const work::Afar& afar);

}  // namespace ringfall::terminal
