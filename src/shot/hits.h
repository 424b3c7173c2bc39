// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/shot.h"

namespace ringfall::shot {

/// Separate attacks in the first moments of a shot: string on limb, bracer or stop. The first is the loud edge itself.
/// An attack is a frame (0.5 ms, first difference) 5 dB above what the loudest past would still be if it fell by only 2.5 dB a
/// millisecond (0.8 dB later than 10 ms), and 5 dB above the frame 1 ms before; 2 ms or more after the last one and within 25 dB of
/// the strongest. Ripples of one attack and beats of tones stay below that. Lags by signal::steepest_rise.
/// pressure_pa starts `edge_s` before the loud edge and ends where hits are no longer looked for. level_db: highest |sample|
/// of the attack's 2 ms, re 20 uPa. Source: own, docs/measures/hits.md. Tested: shot.Hits.*
std::vector<Hit> find_hits(std::span<const double> pressure_pa, double sample_rate_hz, double edge_s);

}  // namespace ringfall::shot
