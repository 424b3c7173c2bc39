// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "plot/figure.h"
#include "plot/layout.h"
#include "plot/text_fit.h"

namespace ringfall::plot {

struct PlacedDot {
  Point place{};
  double shift_pt = 0.0;
};

/// A panel while its marks are gathered: the parts of layout add to `marks` in painting order.
struct Canvas {
  const Panel& panel;
  Frame frame;
  const Measure& measure;
  std::vector<Mark> marks{};
  /// Where words stand inside the frame already, so that the next ones keep clear.
  std::vector<Rect> taken{};
  /// Dots so far: where they belong, and how far they were moved aside.
  std::vector<PlacedDot> dots{};
  /// Values without a place on the page.
  std::size_t not_drawn = 0;
};

bool overlap(const Rect& a, const Rect& b);
bool inside(const Rect& inner, const Rect& outer);

/// The room of one line of text with its base line at `at`.
Rect text_box(const Text& text, const Measure& measure);

/// How much of what is drawn lies in a box: places of areas and words, and points every 4 pt along lines.
double hidden(const std::vector<Mark>& marks, const Rect& box);

/// Adds words on a pale ground and marks their room as taken, at the place that hides least (earlier places
/// are preferred) of those that lie inside the frame and hit no other words. False when none does.
bool add_words_at_best(Canvas& canvas, const std::vector<Text>& places);

}  // namespace ringfall::plot
