// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "plot/frame.h"

namespace ringfall::plot {

/// Width of a column of thinning: 1/600 inch.
inline constexpr double kColumn_pt = 72.0 / 600.0;

/// Points of a curve on the page.
struct PageRuns {
  /// One list a stretch without a gap.
  std::vector<std::vector<Point>> runs{};
  /// Points that have no place (not finite, or not above zero on a logarithmic axis): each ends a run.
  std::size_t without_place = 0;
};

/// Maps a curve to the page and keeps, of successive points in one column, the first, the lowest, the highest
/// and the last, in their order: what is drawn differs from the whole by less than a column sideways and not
/// at all in height, and a spike of one sample survives. x and y have the same length; x need not be sorted
/// (then less is thinned). Cost: O(n). Tests: ThinningTest.
PageRuns thin(std::span<const double> x, std::span<const double> y, const Frame& frame);

}  // namespace ringfall::plot
