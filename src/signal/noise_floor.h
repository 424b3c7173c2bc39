// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

namespace ringfall::signal {

/// Mean square of the steady noise in a stretch that may hold short louder things (a clicker, a release, a cough).
/// The stretch is cut into 20 ms frames; frames that stand out above the spread seen on the quiet side of the median
/// are left out, and the mean of the rest is the answer.
/// `mean_square` holds p^2 of a (weighted) pressure or a BandPower, `rate_hz` its rate; unit as given.
/// nullopt under 5 frames (100 ms) or when all is zero.
/// Accuracy (Monte-Carlo, 0.5 s): docs/measures/levels.md#floor.
/// Source: own, docs/measures/levels.md. Tested: signal.NoiseFloor.*
std::optional<double> floor_mean_square(std::span<const double> mean_square, double rate_hz);

/// Level of the same for a pressure in Pa: dB re 20 uPa.
std::optional<double> floor_level_db(std::span<const double> pressure_pa, double sample_rate_hz);

}  // namespace ringfall::signal
