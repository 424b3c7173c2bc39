// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "stats/interval.h"

namespace ringfall::stats {

/// Difference of two means, always second minus first, in the unit of the values.
struct Difference {
  double difference = 0.0;
  double standard_error = 0.0;
  double df = 0.0;
  double t = 0.0;
  double p = 1.0;  ///< two-sided, against no difference
  Interval interval;
};

/// Values are finite (else a broken promise); confidence 0..1 exclusive. Tested: stats.Difference.*

/// Groups of any size and spread, degrees of freedom after Satterthwaite (Welch 1947).
/// nullopt: a group with fewer than two values, or no spread in either group.
std::optional<Difference> welch_difference(std::span<const double> first,
                                           std::span<const double> second,
                                           double confidence = kConfidence);

/// Groups of one common spread (Student). nullopt: an empty group, fewer than three values in all, or no spread.
std::optional<Difference> pooled_difference(std::span<const double> first,
                                            std::span<const double> second,
                                            double confidence = kConfidence);

/// What counts as one independent observation.
enum class Unit { shot, block };

/// The shots of one set-up, block by block.
using Blocks = std::vector<std::vector<double>>;

/// block when both set-ups have at least two blocks with shots, else shot.
Unit unit_of(const Blocks& first, const Blocks& second);

/// One mean a block; empty blocks are left out.
std::vector<double> block_means(const Blocks& blocks);

/// Difference of two set-ups that were shot in blocks. Unit::block compares the means of the blocks
/// (pooled_difference: with two or three blocks a spread of their own can't be judged, and drift and refitting reach
/// both set-ups alike); with blocks of equal size that is the nested analysis of variance. Unit::shot runs all
/// blocks together (welch_difference) and is too sure of itself when blocks drift: docs/measures/statistics.md#blocks.
/// nullopt as the two above.
std::optional<Difference> blocked_difference(const Blocks& first, const Blocks& second, Unit unit,
                                             double confidence = kConfidence);

}  // namespace ringfall::stats
