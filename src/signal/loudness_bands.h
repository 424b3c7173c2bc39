// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "signal/loudness_tables.h"

namespace ringfall::signal {

inline constexpr double kLoudnessFrame_s = 0.0005;

/// Mean square [Pa^2] of the 28 third-octave bands 25 Hz .. 12.5 kHz.
using BandPowers = std::array<double, kThirdOctaves>;

/// The bands' squared pressure through three equal first-order low-passes of 2/(3 f) s (f the band's centre, at most
/// 1 kHz), once each 0.5 ms, the first at sample 0; filters start empty.
/// In   pressure, Pa; rate 8 kHz .. 384 kHz. The standard's filters are for 48 kHz: other rates are resampled, and
///      what lies above half the rate is missing.
/// Out  ceil(n / 24) frames of n samples at 48 kHz, none for an empty span.
/// Accuracy: against the standard's own arithmetic see loudness.h. Bands from 400 Hz up run in single precision: their
///   rounding noise stays 100 dB under the whole signal. The smoothing runs on means of 4 samples (12 kHz).
/// Cost: 0.3 ms for 0.36 s of sound at 48 kHz.  Fails: InternalError for another rate.
/// Source: ISO 532-1:2017 6.2, Tables A.1, A.2. Tested: signal.LoudnessBands.*, signal.LoudnessTwin.*
std::vector<BandPowers> smoothed_band_powers(std::span<const double> pressure_pa, double rate_hz);

/// The bands' mean square over all but the first skip_s; nullopt when nothing is left.
/// Source: ISO 532-1:2017 5.2. Tested: signal.LoudnessBands.*
std::optional<BandPowers> mean_band_powers(std::span<const double> pressure_pa, double rate_hz, double skip_s);

}  // namespace ringfall::signal
