// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/shot.h"

namespace ringfall::shot {

/// Separate attacks in the first moments of a shot: string on limb, bracer or stop. The first is the loud edge itself.
/// An attack is a rise of the high-passed short-time level (0.5 ms) by 6 dB or more over the lowest of the 3 ms before, at
/// least 2 ms after the last one and within 25 dB of the strongest; ripples of one attack and beats of tones stay below that.
/// pressure_pa starts `edge_s` before the loud edge and ends where hits are no longer looked for. level_db: highest |sample|
/// of the attack's 2 ms, re 20 uPa. Source: own, docs/measures/hits.md. Tested: shot.Hits.*
std::vector<Hit> find_hits(std::span<const double> pressure_pa, double sample_rate_hz, double edge_s);

}  // namespace ringfall::shot
