// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "shot/shot.h"

namespace ringfall::shot {

/// Buzz of one shot, as measured: the strongest line of the modulation spectrum (30-250 Hz) of the squared 1-8 kHz sound
/// 20-220 ms after the edge divided by its decay, over the spectrum's median. Noise gives 8-10 dB at a random
/// rate: a single shot never proves a buzz.
/// In   as cut_tail. Out  nullopt when the tail is shorter than 100 ms or the rate leaves less than 1-3 kHz.
/// Source: own, docs/measures/buzz.md.  Tests: buzz_test.cpp.
std::optional<Buzz> buzz_of(std::span<const double> pressure_pa, double sample_rate_hz,
                            double edge_sample, double tail_end_s);

/// One shot as the claim needs it.
struct BuzzEvidence {
  std::optional<Buzz> buzz;
  std::vector<Tone> tones;  ///< two of them beat at their spacing, which is no buzz
};

/// What several shots say together.
struct BuzzClaim {
  double modulation_db = 0.0;  ///< mean over the shots
  double rate_hz = 0.0;        ///< median
  double same_rate = 0.0;      ///< share of the shots within 5 % of it
};

/// A buzz, claimed only when the mean modulation is >= 11 dB and the rate is the same within +-5 % in >= 80 % of at least
/// 3 shots, and is not the spacing of two tones. nullopt: no claim.
std::optional<BuzzClaim> buzz_claimed(std::span<const BuzzEvidence> shots);

}  // namespace ringfall::shot
