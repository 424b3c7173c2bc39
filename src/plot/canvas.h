// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "plot/figure.h"
#include "plot/layout.h"
#include "plot/text_fit.h"

namespace ringfall::plot {

/// A panel while its marks are gathered: the parts of layout add to `marks` in painting order.
struct Canvas {
  const Panel& panel;
  Frame frame;
  const Measure& measure;
  std::vector<Mark> marks;
  /// Where words stand inside the frame already, so that the next ones keep clear.
  std::vector<Rect> taken;
  /// Values without a place on the page.
  std::size_t not_drawn = 0;
};

bool overlap(const Rect& a, const Rect& b);
bool inside(const Rect& inner, const Rect& outer);

/// The room of one line of text with its base line at `at`.
Rect text_box(const Text& text, const Measure& measure);

/// Adds words on a pale ground and marks their room as taken, at the first of the places that lies inside the
/// frame and hits no other words. False when none does.
bool add_words_at_first_free(Canvas& canvas, const std::vector<Text>& places);

}  // namespace ringfall::plot
