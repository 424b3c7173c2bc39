// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plot/picture.h"

namespace ringfall::plot {

enum class Scale { linear, logarithmic };

/// One axis between data and page: `low` lies at `from_pt`, `high` at `to_pt`. low < high; both above zero on
/// a logarithmic axis.
struct AxisMap {
  Scale scale = Scale::linear;
  double low = 0.0;
  double high = 1.0;
  double from_pt = 0.0;
  double to_pt = 1.0;

  /// Page position; NaN for what has none (not finite, or not above zero on a logarithmic axis). Positions far
  /// outside are held within 10,000 pt of the page, so that a writer never sees absurd numbers.
  double to_page(double data) const;
  /// Undoes to_page inside the frame to a relative 1e-9 of the range. Tests: FrameTest.
  double to_data(double page_pt) const;
};

/// Where a panel's data lies on the page, and the map both ways (hover, zoom, tests).
struct Frame {
  Rect place{};
  AxisMap x;
  AxisMap y;
  Point to_page(Point data) const { return {x.to_page(data.x), y.to_page(data.y)}; }
  Point to_data(Point page) const { return {x.to_data(page.x), y.to_data(page.y)}; }
};

}  // namespace ringfall::plot
