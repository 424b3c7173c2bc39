// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::stats {

/// A closed range, both ends in the unit of what it is the range of.
struct Interval {
  double low = 0.0;
  double high = 0.0;

  bool contains(double value) const { return low <= value && value <= high; }
  double half_width() const { return 0.5 * (high - low); }
};

/// Share of such intervals that hold the true value, unless the caller says otherwise.
inline constexpr double kConfidence = 0.95;

}  // namespace ringfall::stats
