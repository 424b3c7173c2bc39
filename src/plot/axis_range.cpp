// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/axis_range.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "plot/picture.h"

namespace ringfall::plot {
namespace {

constexpr double kAir = 0.04;
constexpr int kIntervals = 4;
/// Beyond these the arithmetic of ranges and steps would overflow or vanish.
constexpr double kLargest = 1e100;
constexpr double kSmallest = 1e-100;

struct Reach {
  bool logarithmic = false;
  std::optional<Range> range;
  /// Something that wants air round it: single points, not a curve that may touch the frame.
  bool points = false;

  void add(double value) {
    if (!std::isfinite(value) || std::abs(value) > kLargest || (logarithmic && value < kSmallest)) return;
    if (!range) range = Range{value, value};
    range->low = std::min(range->low, value);
    range->high = std::max(range->high, value);
  }
  void add(std::span<const double> values) {
    for (const double value : values) add(value);
  }
};

bool lies_along_x(const Panel& panel) { return !panel.y.categories.empty(); }

void add_data(Reach& reach, const Panel& panel, const Series& series, Along along) {
  const bool x = along == Along::x;
  std::visit(Overloaded{
                 [](const Span&) {},
                 [](const Rule&) {},
                 [&](const LevelMap& map) {
                   if (map.levels.empty()) return;
                   reach.add(x ? map.x_low : map.y_low);
                   reach.add(x ? map.x_high : map.y_high);
                 },
                 [&](const Trace& trace) {
                   if (trace.form == Form::stem) reach.points = true;
                   reach.add(x ? trace.x : trace.y);
                 },
                 [&](const Dots& dots) {
                   reach.points = true;
                   reach.add(x ? dots.x : dots.y);
                   if (!x) reach.add(dots.low);
                   if (!x) reach.add(dots.high);
                 },
                 [&](const Intervals& bars) {
                   reach.points = true;
                   for (const Interval& bar : bars.intervals) {
                     if (lies_along_x(panel) != x) {
                       reach.add(bar.position);
                     } else {
                       for (const double value : {bar.low, bar.mid, bar.high}) reach.add(value);
                     }
                   }
                 },
                 [&](const Fit& fit) {
                   for (const Point& end : {fit.from, fit.to}) reach.add(x ? end.x : end.y);
                 },
                 [&](const Notes& notes) {
                   for (const Note& note : notes.notes) reach.add(x ? note.at.x : note.at.y);
                 },
             },
             series);
}

void add_marks_of_axis(Reach& reach, const Series& series, Along along) {
  if (const auto* span = std::get_if<Span>(&series); span && span->axis == along) {
    reach.add(span->low);
    reach.add(span->high);
  }
  if (const auto* rule = std::get_if<Rule>(&series); rule && rule->axis == along) reach.add(rule->at);
}

bool has_map(const Panel& panel) {
  return std::ranges::any_of(panel.series,
                             [](const Series& series) { return std::holds_alternative<LevelMap>(series); });
}

/// A range that can be divided: never empty, never so narrow that positions lose their meaning.
Range opened(Range range, bool logarithmic) {
  if (logarithmic) return range.high > range.low * (1.0 + 1e-6) ? range : Range{range.low / 2.0, range.high * 2.0};
  const double largest = std::max(std::abs(range.low), std::abs(range.high));
  if (range.high - range.low > std::max(1e-9 * largest, kSmallest)) return range;
  const double room = largest <= kSmallest ? 1.0 : 0.1 * largest;
  return {range.low - room, range.high + room};
}

Range aired(const Reach& reach, const Panel& panel, Along along) {
  const Range range = opened(*reach.range, reach.logarithmic);
  if (reach.logarithmic) {
    const double factor = reach.points || along == Along::y ? std::pow(range.high / range.low, kAir) : 1.0;
    return {range.low / factor, range.high * factor};
  }
  const double air = reach.points ? kAir * (range.high - range.low) : 0.0;
  const Range wider{range.low - air, range.high + air};
  return along == Along::y && !has_map(panel) ? rounded_outward(wider, kIntervals) : wider;
}

Reach reach_of(std::span<const Panel* const> panels, Along along) {
  Reach reach;
  const Axis& axis = along == Along::x ? panels.front()->x : panels.front()->y;
  reach.logarithmic = axis.scale == Scale::logarithmic;
  for (const Panel* panel : panels) {
    for (const Series& series : panel->series) {
      add_data(reach, *panel, series, along);
      add_marks_of_axis(reach, series, along);
    }
  }
  return reach;
}

}  // namespace

bool has_data(const Panel& panel) {
  for (const Along along : {Along::x, Along::y}) {
    Reach reach;
    reach.logarithmic = (along == Along::x ? panel.x : panel.y).scale == Scale::logarithmic;
    for (const Series& series : panel.series) add_data(reach, panel, series, along);
    if (!reach.range) return false;
  }
  return true;
}

bool axis_known(std::span<const Panel* const> panels, Along along) {
  const Axis& axis = along == Along::x ? panels.front()->x : panels.front()->y;
  return !axis.categories.empty() || (axis.low && axis.high) || reach_of(panels, along).range.has_value();
}

Range axis_range(std::span<const Panel* const> panels, Along along) {
  check(!panels.empty(), "an axis belongs to a panel");
  const Axis& axis = along == Along::x ? panels.front()->x : panels.front()->y;
  if (!axis.categories.empty()) return {-0.5, static_cast<double>(axis.categories.size()) - 0.5};
  const bool logarithmic = axis.scale == Scale::logarithmic;
  check(!logarithmic || (axis.low.value_or(1.0) > 0.0 && axis.high.value_or(1.0) > 0.0),
        "a logarithmic axis lies above zero");
  const Reach reach = reach_of(panels, along);
  const Range empty = logarithmic ? Range{1.0, 10.0} : Range{0.0, 1.0};
  const Range reached = reach.range ? aired(reach, *panels.front(), along) : empty;
  Range range{axis.low.value_or(reached.low), axis.high.value_or(reached.high)};
  // Data that ends before a fixed end of the axis.
  if (range.low >= range.high && !axis.high) range.high = logarithmic ? range.low * 10.0 : range.low + 1.0;
  if (range.low >= range.high && !axis.low) range.low = logarithmic ? range.high / 10.0 : range.high - 1.0;
  check(range.low < range.high, "an axis runs from low to high");
  return opened(range, logarithmic);
}

}  // namespace ringfall::plot
