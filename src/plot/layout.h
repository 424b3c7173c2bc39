// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string_view>
#include <vector>

#include "base/finding.h"
#include "plot/figure.h"
#include "plot/picture.h"

namespace ringfall::plot {

/// Width in points of one line of UTF-8 text of a size in points: all that layout asks of the world outside.
using Measure = std::function<double(std::string_view text, double size_pt)>;

/// A figure on the page.
struct LaidOut {
  Picture picture;
  /// One a panel, in the figure's order.
  std::vector<Frame> frames{};
  /// values_not_drawn (note): so many values of a panel are not finite, or not above zero on a logarithmic axis.
  std::vector<Finding> findings{};
};

/// Lays a figure out. Deterministic: the same figure and measure give the same picture.
/// A panel without a drawable value is an empty frame with the words "no data". Labels are never cut or laid
/// over one another: what has no room is wrapped, shortened with an ellipsis, or left out.
/// Fails: check() when lists of one series differ in length or a matrix has the wrong size.
/// Cost: O(points). Tests: LayoutTest, GoldenTest.
LaidOut layout(const Figure& figure, const Measure& measure);

/// The same with the widths of DejaVu Sans (text_width.h), as SVG, PDF and PNG use it.
LaidOut layout(const Figure& figure);

}  // namespace ringfall::plot
