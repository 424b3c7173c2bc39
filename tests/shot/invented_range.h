// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "shot/invented_evening.h"

namespace ringfall::shot {

/// Shots of one set-up from one distance, one after another.
struct RangeBlock {
  int shots = 5;
  double level_db = 0.0;   ///< over the loudest set-up, edge and thump alike
  double lag_s = 0.344;    ///< of the impact; 0: not to be heard
  double tones_db = 0.0;   ///< of the tones, over the first set-up's, besides level_db
};

/// What a neighbour's level is held against.
enum class NeighbourLevel { under_faintest_near, of_quietest_block, of_shots_near };

/// Somebody else on the line, shooting all the time at moments of his own.
struct RangeNeighbour {
  int shots = 8;
  NeighbourLevel held_against = NeighbourLevel::under_faintest_near;
  double lowest_db = -9.0, highest_db = -3.0;  ///< over what `held_against` says
  double lag_s = 0.41;
  bool in_turn = false;    ///< shares the archer's bay: shoots between the archer's shots, one for one, with the same microphone
  bool same_bow = false;   ///< of the archer's own model, and no duller: only the level tells
};

/// An hour of an archer who changes set-ups and distances, in short.
struct RangePlan {
  std::string name;
  std::vector<RangeBlock> blocks;
  std::vector<RangeNeighbour> neighbours;
  double shortest_gap_s = 6.0, longest_gap_s = 14.0;  ///< between the archer's shots
  double block_gap_s = 15.0;                          ///< more between blocks
  double floor_db = 45.0;
  bool talk = false;
  double sample_rate_hz = 48000.0;
};

/// Makes the sound; equal seeds give equal samples. Neighbours' shots keep 0.8 s before and 1.9 s after from the archer's.
InventedEvening make_range(const RangePlan& plan, std::uint64_t seed);

/// The plans of docs/measures/shots.md#own-shots-and-others, by name: steps, walks and company of every kind.
std::vector<RangePlan> range_plans();

}  // namespace ringfall::shot
