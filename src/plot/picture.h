// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "plot/ink.h"

namespace ringfall::plot {

/// A Picture is a figure laid out: a list of marks in points (1/72 inch) from the top left corner, y down, in
/// painting order. It is a value: it can be kept, compared, painted on paper or in a window, written as text.
/// Every reader (SVG, Cairo, trace, window) visits the variant with one overload a mark and no catch-all, so
/// that a new mark does not compile until each of them handles it.

struct Point {
  double x = 0.0;
  double y = 0.0;
};

struct Rect {
  double left = 0.0;
  double top = 0.0;
  double right = 0.0;
  double bottom = 0.0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
};

/// An open line through two or more points.
struct Polyline {
  std::vector<Point> points{};
  Ink ink = Ink::text;
  double width_pt = 1.0;
  Dash dash = Dash::solid;
};

/// A closed area without an outline; three or more points, opacity 0 .. 1.
struct Filled {
  std::vector<Point> outline{};
  Ink ink = Ink::fill;
  double opacity = 1.0;
};

enum class Anchor { start, middle, end };

/// One line of UTF-8 text; `at` is on its base line.
struct Text {
  Point at{};
  std::string words{};
  double size_pt = 8.0;
  Ink ink = Ink::text;
  Anchor anchor = Anchor::start;
};

/// A raster: rows from the top. Step 0 is "nothing here" (paper), 1 .. 255 run along the theme's ramp
/// (colour_map.h) from lowest to highest.
struct Image {
  Rect place{};
  std::size_t columns = 0;
  std::size_t rows = 0;
  std::vector<std::uint8_t> steps{};
};

/// Marks up to the next Unclip are seen inside `place` only. Clips do not nest.
struct Clip {
  Rect place{};
};
struct Unclip {};

using Mark = std::variant<Polyline, Filled, Text, Image, Clip, Unclip>;

struct Picture {
  double width_pt = 0.0;
  double height_pt = 0.0;
  std::vector<Mark> marks{};
};

/// For std::visit: std::visit(Overloaded{[](const Polyline&) {...}, ...}, mark).
template <class... Handlers>
struct Overloaded : Handlers... {
  using Handlers::operator()...;
};
template <class... Handlers>
Overloaded(Handlers...) -> Overloaded<Handlers...>;

/// The outline of a rectangle.
std::vector<Point> outline_of(const Rect& place);

}  // namespace ringfall::plot
