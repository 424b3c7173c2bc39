// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

namespace ringfall::signal {

/// The signal at another sample rate, band-limited to 0.9 of half the lower one (-0.01 dB), without delay: time zero stays
/// sample 0.
/// In   x [n]; from_hz, to_hz > 0. Zero is assumed before and after x, so both ends ring like a cut signal does.
/// Out  round(n * to_hz / from_hz) samples, at least 1 when n >= 1; x itself when the rates are equal; empty when x is.
/// Accuracy: away from the ends within 1e-6 up to 0.22 of the lower rate; what the new rate can't hold is down 120 dB.
/// Cost: 0.3 ms for 0.36 s from 44.1 kHz to 48 kHz.
/// Fails: InternalError for a rate not above 0.
/// Source: library soxr, quality VHQ, linear phase. Tested: signal.Resample.*
std::vector<double> resample(std::span<const double> x, double from_hz, double to_hz);

}  // namespace ringfall::signal
