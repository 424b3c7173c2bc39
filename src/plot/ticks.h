// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "plot/frame.h"

namespace ringfall::plot {

struct Tick {
  double at = 0.0;
  std::string label{};
};

/// plain: 2000; kilo: 2k (frequencies).
enum class Numbers { plain, kilo };

/// Room a label takes along its axis, in points.
using Extent = std::function<double(const std::string& label)>;

/// Free room between the labels of neighbouring ticks.
inline constexpr double kLabelGap_pt = 6.0;

/// Round numbers on an axis: the densest choice whose ticks are `nearest_pt` apart at least and whose labels
/// keep kLabelGap_pt from each other; closer than nearest_pt when else only one would be left. Linear axes step by 1, 2 or 5 times a power of ten; logarithmic ones
/// take 1-2-5 of each decade, else whole decades, and steps as on a linear axis when the range holds fewer
/// than three such. At most 60; all within the range. Tests: TicksTest.
std::vector<Tick> ticks(const AxisMap& axis, Numbers numbers, double nearest_pt, const Extent& extent_pt);

struct Range {
  double low = 0.0;
  double high = 1.0;
};

/// The smallest range of whole steps (1, 2 or 5 times a power of ten, at least `intervals` of them in the
/// range given) that holds low .. high. low < high.
Range rounded_outward(Range range, int intervals);

}  // namespace ringfall::plot
