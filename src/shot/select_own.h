// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/find.h"

namespace ringfall::shot {

/// How near each event is, in dB: mean of edge and body level, less 5 dB an octave that it is duller than the loud ones.
/// Where seven of ten loud ones agree on an impact lag, an event with that lag is spared the octaves, one with another lag
/// loses 3 dB, one without 2 dB; 4.5 dB in all at most, so that nothing as loud as the rest goes. A neighbour's shot is fainter, duller and has its own lag.
std::vector<double> nearness_db(std::span<const Event> events);

/// Which of the own shots' impacts stand alone: at least two of them, and a quarter of those that have one, must share a lag
/// (5 %, 6 ms); one lone shot's cannot be judged and stays. Indices into `own`.
std::vector<std::size_t> lone_impacts(std::span<const Event> own, double sample_rate_hz);

/// Linear between order statistics; values not empty, share 0 .. 1.
double quantile(std::vector<double> values, double share);

}  // namespace ringfall::shot
