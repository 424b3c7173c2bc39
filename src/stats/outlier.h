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

/// Grubbs' test of one value as the farthest out of n: t^2 = n (n - 2) G^2 / ((n - 1)^2 - n G^2) with n - 2 degrees of freedom, times n
/// (Bonferroni), at most 1. 1 when fewer than three values or all are equal. Source: Grubbs 1969; NIST/SEMATECH e-Handbook 1.3.5.17.1.
double grubbs_p(std::span<const double> values, std::size_t index);

}  // namespace ringfall::stats
