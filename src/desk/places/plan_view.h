// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "compare/plan.h"
#include "desk/model/desk.h"
#include "desk/parts/stage.h"

namespace ringfall::desk {

/// Before shooting: how many shots a difference takes, in which order to shoot the blocks, what to see to.
class PlanView {
 public:
  void draw(Desk& desk, const Stage& stage, ImVec2 size);

 private:
  void look_back(const Desk& desk, const shot::Number& number);
  void shots_needed(Desk& desk, const Stage& stage, float width);
  void order(Desk& desk, const Stage& stage, float width);
  void checklist(const Stage& stage);

  std::string worth_;
  std::string spread_;
  std::uint64_t seen_in_ = 0;  ///< the comparison that `seen_` was read from
  std::string seen_number_;
  std::optional<compare::ShotScatter> seen_;
  compare::PlanQuestion asked_;  ///< what `plan_` answers
  std::optional<compare::ShootingPlan> plan_;
  std::vector<bool> ticked_;
};

}  // namespace ringfall::desk
