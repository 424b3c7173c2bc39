// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "plot/frame.h"
#include "plot/ink.h"

namespace ringfall::plot {

/// A Figure says what is to be seen: data in data units, axes with quantity and unit, inks by role. It knows
/// no page, colour or font; layout (layout.h) makes a Picture of it. How it works: docs/drawing.md.
/// NaN and infinities in data are gaps, never a crash. x and y lists of one series have the same length.

/// One axis; its title reads "Level (dB re full scale)".
/// Without `low`/`high` the range follows the data. With `categories` the positions are 0, 1, ... n - 1
/// (on a y axis the first is at the top) and the range is theirs.
struct Axis {
  std::string quantity{};
  std::string unit{};
  Scale scale = Scale::linear;
  std::optional<double> low{};
  std::optional<double> high{};
  std::vector<std::string> categories{};
};

/// The usual axes. Time data are in the unit of the axis.
Axis time_axis_s();
Axis time_axis_ms();
/// Logarithmic, ticks 20 50 100 ... 1k 2k.
Axis frequency_axis(double low_hz, double high_hz);
/// `reference` completes the unit: "re full scale", "SPL"; may be empty.
Axis level_axis(std::string quantity, std::string reference);
Axis category_axis(std::string quantity, std::vector<std::string> categories);

enum class Form { line, step, stem };

/// A curve: a line, a staircase (each value holds until the next x) or stems from the foot of the panel.
/// Any number of points; layout keeps the first, lowest, highest and last of each column of 1/600 inch.
/// A name puts it into the legend.
struct Trace {
  std::vector<double> x{};
  std::vector<double> y{};
  Ink ink = Ink::trace1;
  std::string name{};
  Form form = Form::line;
  double width_pt = 1.1;
  /// Without one the ink's own dash (dash_of).
  std::optional<Dash> dash{};
};

/// A trace of evenly spaced samples: x = start, start + step, ...
Trace sampled_trace(double start, double step, std::vector<double> y, Ink ink, std::string name);

/// Single points, each drawn. With `low` and `high` (as long as y) error bars along y. On a category axis the
/// dots of one category are spread sideways, always the same way, so that each can be seen.
struct Dots {
  std::vector<double> x{};
  std::vector<double> y{};
  std::vector<double> low{};
  std::vector<double> high{};
  Ink ink = Ink::trace1;
  std::string name{};
  /// An open marker: a point that is shown but not counted.
  bool hollow = false;
  double radius_pt = 2.3;
};

/// Estimates with their intervals: a bar low .. high with a marker at mid. They lie along x when the y axis
/// has categories (position = the category), along y otherwise.
struct Interval {
  double position = 0.0;
  double low = 0.0;
  double mid = 0.0;
  double high = 0.0;
};
struct Intervals {
  std::vector<Interval> intervals{};
  Ink ink = Ink::trace1;
  std::string name{};
};

enum class Along { x, y };

/// A shaded stretch of one axis over the whole panel, e.g. the tail, or +-1 dB. Its label stands inside at the
/// top when there is room, else in the legend.
struct Span {
  Along axis = Along::x;
  double low = 0.0;
  double high = 0.0;
  std::string label{};
  Ink ink = Ink::fill;
};

/// A line across the panel at one place of one axis. Labels of x rules (loud edge, tail, impact, hits) stand
/// above the panel in as many rows as they need, those of y rules inside at the right.
struct Rule {
  Along axis = Along::x;
  double at = 0.0;
  std::string label{};
  Ink ink = Ink::accent;
  Dash dash = Dash::solid;
};

/// A straight line between two data points with a label beside its middle.
struct Fit {
  Point from{};
  Point to{};
  std::string label{};
  Ink ink = Ink::accent;
};

/// A marked place with a word: a tone on a spectrum or a spectrogram. A word without room is left out, its
/// marker stays.
struct Note {
  Point at{};
  std::string label{};
};
struct Notes {
  std::vector<Note> notes{};
  Ink ink = Ink::accent;
  std::string name{};
};

/// A matrix of levels over x and y (spectrogram), with a colour bar at the right of the panel.
/// Column c covers x_low + [c, c+1] (x_high - x_low) / columns, row r likewise from y_low, whatever the axis'
/// scale is. levels[r * columns + c], r = 0 lowest; NaN is left empty. Where several cells share a pixel the
/// highest is shown, so that a thin tone survives.
struct LevelMap {
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<double> levels{};
  double x_low = 0.0;
  double x_high = 1.0;
  double y_low = 0.0;
  double y_high = 1.0;
  /// Range of the ramp; lower levels are shown as `low`, higher as `high`. low < high.
  double low = -80.0;
  double high = 0.0;
  std::string quantity = "Level";
  std::string unit = "dB";
};

using Series = std::variant<Span, LevelMap, Trace, Dots, Intervals, Rule, Fit, Notes>;

/// `inside`: in the corner where it hides least.
enum class LegendPlace { none, inside, right };

/// One pair of axes. Series are drawn in the order given.
struct Panel {
  std::string title{};
  Axis x{};
  Axis y{};
  std::vector<Series> series{};
  LegendPlace legend = LegendPlace::inside;
  /// Its share of the height, relative to the panels above and below it.
  double height_share = 1.0;
};

/// Panels in rows of `columns`, left to right, top to bottom, under a title and over a caption (which wraps).
struct Figure {
  std::string title{};
  std::string caption{};
  std::vector<Panel> panels{};
  std::size_t columns = 1;
  /// One x range for all panels of a column, numbers and title under the lowest only.
  bool shared_x = false;
  double width_pt = 480.0;
  double height_pt = 260.0;
};

}  // namespace ringfall::plot
