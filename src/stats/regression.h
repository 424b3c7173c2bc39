// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "stats/interval.h"

namespace ringfall::stats {

/// Straight line y = intercept + slope x by least squares.
struct Line {
  double intercept = 0.0;
  double slope = 0.0;
  double intercept_error = 0.0;     ///< standard error
  double slope_error = 0.0;         ///< standard error
  double residual_deviation = 0.0;  ///< sqrt(residual sum of squares / df)
  double r_squared = 0.0;           ///< 1 when all y are equal
  double df = 0.0;                  ///< n - 2
  double slope_p = 1.0;             ///< two-sided, against slope 0
  Interval slope_interval;
};

/// x, y: same length, finite. nullopt: fewer than three points or all x equal.
/// Accuracy: NIST StRD Norris to 12 digits. Tested: stats.Regression.*
std::optional<Line> fit_line(std::span<const double> x, std::span<const double> y,
                             double confidence = kConfidence);

}  // namespace ringfall::stats
