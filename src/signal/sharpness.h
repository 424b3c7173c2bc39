// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "signal/loudness_slopes.h"

namespace ringfall::signal {

/// Sharpness [acum] of a specific loudness: the centre of gravity of N'(z) over the Bark scale with the high end weighted
/// up, S = k sum(N' g z) / sum(N'), g = 1 up to 15.8 Bark and 0.15 e^(0.42 (z - 15.8)) + 0.85 above.
/// Of a time-varying sound pass the mean N'(z) over time. A common factor on N' changes nothing.
/// nullopt: no loudness. Accuracy: 5 % or 0.05 acum against DIN 45692:2009 Tables A.2, A.3.
/// Source: DIN 45692:2009 formulae (1), (2). Tested: signal.Sharpness.*
std::optional<double> sharpness_acum(const SpecificLoudness& specific_sone_per_bark);

/// k, chosen so that the reference sound (noise from 920 Hz to 1080 Hz at 60 dB) has 1.00 acum; DIN 45692 wants
/// 0.105 <= k < 0.115.
double sharpness_factor();

}  // namespace ringfall::signal
