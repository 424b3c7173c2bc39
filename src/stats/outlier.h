// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::stats {

/// A value far from the others: to be shown, never dropped by itself.
struct Outlying {
  std::size_t index = 0;
  /// 0.6745 (value - median) / MAD: about standard deviations, sign kept. Where half the values or more are equal (MAD 0):
  /// (value - median) / (1.253314 mean absolute deviation from the median).
  double robust_z = 0.0;
};

/// Beyond this the value is called outlying (Iglewicz & Hoaglin 1993).
inline constexpr double kOutlyingRobustZ = 3.5;

/// Those with |robust_z| > limit, in the order given. Values finite. None when fewer than five values (half of them could be
/// outlying unseen) or when all are equal. Tested: stats.Outlier.*
std::vector<Outlying> outlying_values(std::span<const double> values,
                                      double limit = kOutlyingRobustZ);

}  // namespace ringfall::stats
