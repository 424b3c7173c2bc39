// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>

#include "signal/loudness_core.h"

namespace ringfall::signal {

/// Specific loudness N'(z) [sone/Bark] at z = 0.1, 0.2 .. 24.0 Bark.
inline constexpr std::size_t kSpecificValues = 240;
using SpecificLoudness = std::array<double, kSpecificValues>;

/// Loudness [sone], the integral of the pattern N'(z) made of the cores and, where a lower band masks the next ones,
/// slopes that fall towards higher z. In closed form, piece by piece. Source: ISO 532-1:2017 5.6, 5.7, Tables A.8, A.9.
/// Tested: signal.Loudness.*, signal.LoudnessTwin.*
double total_loudness(const CoreLoudness& core);

/// The same, adding the pattern to `specific`.
double total_loudness(const CoreLoudness& core, SpecificLoudness& specific);

}  // namespace ringfall::signal
