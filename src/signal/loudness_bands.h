// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "signal/loudness_tables.h"

namespace ringfall::signal {

inline constexpr double kLoudnessRate_hz = 48000.0;   ///< the one rate for which the standard gives filters
inline constexpr std::size_t kSamplesPerFrame = 24;   ///< 0.5 ms

/// Mean square [Pa^2] of the 28 third-octave bands 25 Hz .. 12.5 kHz.
using BandPowers = std::array<double, kThirdOctaves>;

/// The bands' squared pressure through three equal first-order low-passes of 2/(3 f) s (f the band's centre, at most
/// 1 kHz), once each 0.5 ms, the first at sample 0; filters start empty.
/// In   pressure at 48 kHz, Pa.  Out  ceil(n / 24) frames, none for an empty span.
/// Accuracy: against the standard's own arithmetic see loudness.h. Bands from 1 kHz up run in single precision: their
///   rounding noise stays 90 dB under the whole signal. The smoothing runs on means of 4 samples (12 kHz).
/// Source: ISO 532-1:2017 6.2, Tables A.1, A.2. Tested: signal.LoudnessBands.*
std::vector<BandPowers> smoothed_band_powers(std::span<const double> pressure_pa);

/// The bands' mean square over all but the first `skip` samples. nullopt-free: skip < pressure_pa.size().
/// Source: ISO 532-1:2017 5.2. Tested: signal.LoudnessBands.*
BandPowers mean_band_powers(std::span<const double> pressure_pa, std::size_t skip);

}  // namespace ringfall::signal
