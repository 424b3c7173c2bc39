// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace ringfall::plot {

/// What a mark is for. A figure speaks of roles only; the theme turns them into colours when it is painted.
enum class Ink { paper, frame, grid, text, muted, accent, warning, fill, trace1, trace2, trace3, trace4, trace5, trace6 };
inline constexpr int kInks = 14;
inline constexpr int kTraces = 6;

enum class Theme { light, dark };

enum class Dash { solid, dashed, dotted, dash_dot };
enum class Marker { dot, square, triangle, diamond, down_triangle, cross };

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  bool operator==(const Colour&) const = default;
};

/// The colour of a role. Text roles have a contrast ratio of 4.5 to the paper at least, traces, accent and
/// warning 3 (WCAG 2.1, 1.4.3 and 1.4.11). Tests: InkTest.
Colour colour_of(Ink ink, Theme theme);

/// Contrast ratio 1 .. 21 of two colours (WCAG 2.1, "contrast ratio" and "relative luminance").
double contrast_ratio(Colour a, Colour b);

/// Trace inks in the order of their use: trace1 .. trace6, then from the start. index >= 0.
Ink trace_ink(int index);

/// The cue that repeats a trace's colour for eyes and printers without it: each trace ink has its own dash
/// (four of them, then repeated) and its own marker. Other inks: solid, dot.
Dash dash_of(Ink ink);
Marker marker_of(Ink ink);

/// "frame", "trace1", ... for traces of pictures and SVG classes.
const char* ink_name(Ink ink);

}  // namespace ringfall::plot
