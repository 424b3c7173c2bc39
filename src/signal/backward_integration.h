// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace ringfall::signal {

/// Plain backward integration of a mean-square sequence (any unit), truncated at its end:
/// L[n] = 10 lg((tail + sum_{k >= n} x[k]/rate) / (tail + sum_all x[k]/rate)) in dB, L[0] = 0.
/// `tail` is the energy that follows the end (mean square times seconds); 0: truncated.
/// Values stop (the result is shorter) where the sum is not positive.
/// Source: Schroeder 1965; ISO 3382-1:2009 5.3.3. Tested: signal.BackwardIntegration.*
std::vector<double> backward_integration_db(std::span<const double> mean_square, double rate_hz, double tail = 0.0);

/// A straight line through a stretch of a decay curve.
struct DecayLine {
  double begin_s = 0.0, end_s = 0.0;    ///< the stretch, from the curve's start
  double level_at_begin_db = 0.0;       ///< of the line
  double slope_db_per_s = 0.0;          ///< < 0
  double nonlinearity_permille = 0.0;   ///< 1000 (1 - r^2), ISO 3382-2:2008 Annex B.2
  double decay_time_s() const { return -60.0 / slope_db_per_s; }
};

/// Least-squares line through the curve from the first time it is at or below upper_db to the last before it first
/// falls under lower_db (both <= 0). nullopt when the curve does not reach lower_db, has under 3 values there, or
/// does not fall. Source: ISO 3382-1:2009 3.2, 5.3.3. Tested: signal.BackwardIntegration.*
std::optional<DecayLine> fit_decay(std::span<const double> curve_db, double rate_hz, double upper_db, double lower_db);

}  // namespace ringfall::signal
