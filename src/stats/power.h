// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>

#include "stats/interval.h"

namespace ringfall::stats {

/// Planning: two groups of n independent shots with a common standard deviation, two-sided t test.
/// deviation > 0 and difference in one unit; alpha, power: 0..1 exclusive. The unit may be blocks: give the spread of block
/// means then. Source: Cohen 1988 chapter 2; noncentral t. Accuracy 1e-10. Tested: stats.Power.*

/// Chance to find the difference significant. n >= 2.
/// `df`: of the deviation where more than these two groups tell it; default 2 n - 2.
double two_group_power(double difference, double deviation, std::size_t n, double alpha = 0.05, std::optional<double> df = {});

/// Fewest a group for this power. nullopt: difference 0, or more than 100 000 are needed.
std::optional<std::size_t> shots_for_power(double difference, double deviation, double power = 0.8,
                                           double alpha = 0.05);

/// Chance that the interval of the difference settles a question in which `noticeable` (n) is the smallest difference that matters:
/// that it excludes 0, or holds it and lies within +-n. n 0: the first only, which is two_group_power. `units` a group in all, in
/// `sessions` sessions with a level of their own (2 units - sessions - 1 degrees of freedom, 1 or more). `difference` is the true one.
/// Chances of |d| > h and of |d| < n - h, h = t s sqrt(2 / units), over the distribution of s. Own, from the definitions; accuracy
/// 5e-5. The parts are the power of the t test and that of two one-sided tests of 2.5 % each (Schuirmann 1987).
double settling_power(double difference, double deviation, double noticeable, std::size_t units, std::size_t sessions = 1);

/// Fewest a group, `fewest` or more, for which settling_power reaches `power`. nullopt: more than 100 000 are needed.
std::optional<std::size_t> units_to_settle(double difference, double deviation, double noticeable, std::size_t fewest = 2,
                                           std::size_t sessions = 1, double power = 0.8);

/// Smallest difference found with this power by n a group, >= 2.
double detectable_difference(double deviation, std::size_t n, double power = 0.8,
                             double alpha = 0.05, std::optional<double> df = {});

/// Expected half width of the interval of the difference: t sqrt(2 / n) deviation. n >= 2.
double expected_half_width(double deviation, std::size_t n, double confidence = kConfidence, std::optional<double> df = {});

}  // namespace ringfall::stats
