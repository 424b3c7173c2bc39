// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/measure.h"
#include "compare/session.h"

namespace ringfall::compare {

/// How shots of one set-up scatter: within a block, and block from block. Standard deviations.
struct ShotScatter {
  double within_block = 0.0;
  double between_blocks = 0.0;
  std::size_t shots = 0;   ///< it rests on; 0: stated
  std::size_t blocks = 0;
  double between_df = 0.0;    ///< degrees of freedom of between_blocks; 0: stated
  bool operator==(const ShotScatter&) const = default;
};

/// From what a session shows of a number: pooled over set-ups and sessions by nested analysis of variance (unequal blocks: textbook
/// n0). nullopt: no block with two shots. Tests: compare.Plan.*
std::optional<ShotScatter> scatter_seen(const Session& session, const Measure& measure);

/// What the person wants to find out.
struct PlanQuestion {
  std::vector<std::string> setups;  ///< two or more, the baseline first
  double wanted = 1.0;              ///< the smallest difference worth finding, in the number's unit, > 0
  ShotScatter scatter;              ///< within_block > 0
  double power = 0.8;               ///< chance to find it
  bool operator==(const PlanQuestion&) const = default;
};

/// A block to shoot.
struct PlannedBlock {
  std::size_t setup = 0;  ///< index in PlanQuestion::setups
  std::size_t shots = 0;
};

struct ShootingPlan {
  std::vector<PlannedBlock> order;      ///< set-ups forth and back (A B B A, A B C C B A), so that a steady drift cancels
  std::size_t shots_per_block = 0;
  std::size_t blocks_per_setup = 0;     ///< even
  std::size_t shots_per_setup = 0;
  std::size_t arrows = 0;               ///< with warm-up: 6 before, 2 after each change of set-up
  double half_width = 0.0;              ///< expected 95 % interval, +-
  double power = 0.0;                   ///< what the plan reaches
  bool reaches = false;                 ///< the wanted power; false: no plan does, this one comes nearest
  double detectable = 0.0;              ///< smallest difference found with the wanted power
  bool too_many = false;                ///< more than an evening: several sessions, or a larger difference, are needed
};
inline constexpr std::size_t kMostArrows = 120;

/// Of blocks of 3 to 6 shots and even numbers of blocks (2 or more each) the plan with the fewest arrows that reaches the power, or where
/// none does (60 blocks are the most) the one with the greatest, block means being the data: their standard deviation is sqrt(between^2 + within^2 / shots).
/// Of more than two set-ups each is held against the first at 0.05 / (set-ups - 1), the first step of Holm's, and all tell of the spread, as do the
/// blocks that the scatter was seen in.
/// Source: noncentral t (stats/power.h), block sizes common practice. Tests: compare.Plan.*
ShootingPlan plan_shooting(const PlanQuestion& question);

}  // namespace ringfall::compare
