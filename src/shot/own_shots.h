// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "shot/find.h"

namespace ringfall::shot {

/// Events of a recording, told apart. Indices in time order.
struct OwnShots {
  std::vector<std::size_t> own;
  std::vector<std::size_t> doubtful;    ///< of `own` those that may as well be somebody else's
  std::vector<std::size_t> neighbours;  ///< shots, but somebody else's
  std::vector<std::size_t> others;      ///< too faint to say what they are
  double below_db = 0.0;                ///< how far the neighbours are under the own shots near them, median
};

/// Tells the archer's own shots from a neighbour's by time and level (own_chain.h), with the neighbours' impact lag and dullness,
/// where several of them share one, as further evidence. When in doubt a shot counts: a few that were left out come back when no
/// neighbour is to be heard otherwise. Doubtful is an own shot that could nearly as well be left out, one as faint as
/// neighbours left out that has no impact lag of its own to show, and each of two archers who shoot in turn with lags of their own.
/// events: shot-like ones in time order.  Source: own, docs/measures/shots.md#own-shots-and-others.  Tests: shot.OwnShots.*
OwnShots own_shots(std::span<const Event> events, double sample_rate_hz);

}  // namespace ringfall::shot
