// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

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

/// What counts as one independent observation.
enum class Unit { shot, block };

/// The shots of one set-up, block by block.
using Blocks = std::vector<std::vector<double>>;

/// block when both set-ups have at least two blocks with shots, else shot.
Unit unit_of(const Blocks& first, const Blocks& second);

/// One mean a block; empty blocks are left out.
std::vector<double> block_means(const Blocks& blocks);

}  // namespace ringfall::stats
