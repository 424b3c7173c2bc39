// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/canvas.h"

#include <algorithm>

namespace ringfall::plot {
namespace {

constexpr double kGroundOpacity = 0.78;

}  // namespace

bool overlap(const Rect& a, const Rect& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

bool inside(const Rect& inner, const Rect& outer) {
  return inner.left >= outer.left && inner.right <= outer.right && inner.top >= outer.top &&
         inner.bottom <= outer.bottom;
}

Rect text_box(const Text& text, const Measure& measure) {
  const double width = measure(text.words, text.size_pt);
  const double left = text.anchor == Anchor::start    ? text.at.x
                      : text.anchor == Anchor::middle ? text.at.x - width / 2.0
                                                      : text.at.x - width;
  return {left, text.at.y - kCapHeight * text.size_pt, left + width, text.at.y + kDescent * text.size_pt};
}

bool add_words_at_first_free(Canvas& canvas, const std::vector<Text>& places) {
  for (const Text& text : places) {
    const Rect box = text_box(text, canvas.measure);
    const Rect ground{box.left - 1.5, box.top - 1.5, box.right + 1.5, box.bottom + 0.5};
    const bool free = inside(ground, canvas.frame.place) &&
                      std::ranges::none_of(canvas.taken, [&](const Rect& other) { return overlap(ground, other); });
    if (!free) continue;
    canvas.taken.push_back(ground);
    canvas.marks.push_back(Filled{outline_of(ground), Ink::paper, kGroundOpacity});
    canvas.marks.push_back(text);
    return true;
  }
  return false;
}

}  // namespace ringfall::plot
