// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "shot/find.h"

namespace ringfall::shot {

/// Mean of edge and body level, dB: how loud an event is to the finder.
double event_level_db(const Event& event);

/// Time from the loud edge to the impact, in samples; 0: no impact.
double impact_lag_samples(const Event& event);

/// What the chain is told of each event besides its level.
struct ChainHint {
  double foreign = 1.0;  ///< 0 .. 1: factor on the cost of leaving it out; under 1 it sounds like others left out, and being own costs 2 (1 - foreign)
};

/// The archer's own shots as a chain through time. An archer shoots one set-up after another: own shots are as loud as the own
/// one before and the own one after, but for a step now and then; somebody else's, at moments of his own, are fainter than both.
/// Of all ways to pick the own events the cheapest is taken. Costs, in units of a squared deviation / 2:
///   two own in a row d dB apart    d^2 / (2 spread^2) - 0.5, held to 0 .. 3 (a change of set-up or distance), + 0.5 a dB from 12 on
///                                  0.5 when both impacts are heard with different lags; 2 within 2.5 s, 0.5 within 4 s
///   one not own, d dB under the    8 at 0 dB, falling to 1.8 at 2.5 spreads, from there 1.8 to 12 dB, falling to 0.3 at 18 dB;
///   fainter own one beside it      x 1.3 when it has the lag of one of these, x 0.8 with another, x 1.6 before the first and after the last
/// `spread_db`: standard deviation between successive own shots. events in time order, at most 120 in a row are left out.
/// Returns the own ones' indices. Cost: at worst 7000 steps an event, usually some hundred.
/// Source: own; costs chosen on seeds named in docs/measures/shots.md#own-shots-and-others.  Tests: shot.OwnChain.*
std::vector<std::size_t> own_chain(std::span<const Event> events, std::span<const ChainHint> hints, double spread_db, double sample_rate_hz);

/// How much dearer the chain becomes when own event `own[place]` is left out, all others staying; small: it may be somebody else's.
double worth_in_chain(std::span<const Event> events, std::span<const ChainHint> hints, double spread_db, double sample_rate_hz,
                      std::span<const std::size_t> own, std::size_t place);

}  // namespace ringfall::shot
