// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "stats/interval.h"

namespace ringfall::stats {

/// Shift between two groups that single wild values hardly move.
struct Shift {
  double shift = 0.0;                ///< median of all differences second - first
  std::optional<Interval> interval;  ///< nullopt: too few values for this confidence
};

/// The interval's ends are order statistics of the differences, ranks from the exact distribution of the Mann-Whitney
/// count up to 50 values a group, else from its normal approximation; ties make it wider than it need be.
/// Values finite. nullopt: an empty group. Cost: size of first times size of second.
/// Source: Hodges & Lehmann 1963. Tested: stats.HodgesLehmann.*
std::optional<Shift> hodges_lehmann_shift(std::span<const double> first,
                                          std::span<const double> second,
                                          double confidence = kConfidence);

}  // namespace ringfall::stats
