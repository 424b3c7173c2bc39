// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

namespace ringfall::stats {

/// Numbers that sum up one list. Values of any unit, finite (else a broken promise), any order unless said.
/// Results have the unit of the values. Means are taken in two passes with compensated sums: the NIST sets, whose
/// digits are nearly all constant, come out to the digits the data hold as doubles. Tested: stats.Summary.*

/// Arithmetic mean. nullopt: no values.
std::optional<double> mean(std::span<const double> values);

/// Standard deviation, n - 1 in the denominator. nullopt: fewer than two values.
std::optional<double> standard_deviation(std::span<const double> values);

/// Middle value, or mean of the two middle ones. nullopt: no values.
std::optional<double> median(std::span<const double> values);

/// Median distance from the median, not scaled. nullopt: no values.
std::optional<double> median_absolute_deviation(std::span<const double> values);

/// Value below which a share p (0..1) lies, linear between the order statistics: position 1 + (n - 1) p
/// (definition 7 of Hyndman & Fan 1996). nullopt: no values.
std::optional<double> quantile(std::span<const double> values, double p);

}  // namespace ringfall::stats
