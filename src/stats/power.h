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
double two_group_power(double difference, double deviation, std::size_t n, double alpha = 0.05);

/// Fewest a group for this power. nullopt: difference 0, or more than 100 000 are needed.
std::optional<std::size_t> shots_for_power(double difference, double deviation, double power = 0.8,
                                           double alpha = 0.05);

/// Smallest difference found with this power by n a group, >= 2.
double detectable_difference(double deviation, std::size_t n, double power = 0.8,
                             double alpha = 0.05);

/// Expected half width of the interval of the difference: t sqrt(2 / n) deviation. n >= 2.
double expected_half_width(double deviation, std::size_t n, double confidence = kConfidence);

/// Fewest a group for an interval no wider than +-half_width (> 0). nullopt: more than 100 000 are needed.
std::optional<std::size_t> shots_for_half_width(double half_width, double deviation,
                                                double confidence = kConfidence);

}  // namespace ringfall::stats
