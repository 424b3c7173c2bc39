// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::stats {

/// Chances of 0, 1, 2, ... when chance alone orders the values, no ties. Exact to rounding.

/// Discordant pairs among n values in random order (Kendall's S = n(n-1)/2 - 2 of them). n >= 1; cost n^3.
std::vector<double> discordant_pair_chances(std::size_t n);

/// Mann-Whitney count: pairs in which the first group's value is the larger. n1, n2 >= 1; cost (n1 n2)^2.
std::vector<double> mann_whitney_chances(std::size_t n1, std::size_t n2);

/// The largest k with chance(count < k) <= tail; 0: none. The interval for a median of pairwise quantities runs from
/// the k-th smallest of them to the k-th largest.
std::size_t order_from_chances(std::span<const double> chances, double tail);

}  // namespace ringfall::stats
