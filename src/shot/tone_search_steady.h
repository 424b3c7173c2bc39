// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "shot/tail_tones.h"

namespace ringfall::shot {

/// Tones in the stretch before a shot, 30 Hz to 10 kHz, ascending: lines of a long low-side-lobe spectrum that stand 13 dB
/// above the median of their neighbourhood on both sides and are as narrow as the window makes a steady tone.
/// Empty under 100 ms. Level within 0.5 dB for a tone 20 dB over its noise. Tested: tail_tones_test.cpp.
std::vector<TailSound::Steady> steady_tones(std::span<const double> pressure_pa, double sample_rate_hz);

}  // namespace ringfall::shot
