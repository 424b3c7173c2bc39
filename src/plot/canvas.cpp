// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/canvas.h"

#include <algorithm>
#include <cmath>

namespace ringfall::plot {
namespace {

constexpr double kGroundOpacity = 0.78;
/// A later place must hide this much less than an earlier one to be taken.
constexpr double kCostOfLaterPlace = 0.7;

Rect ground_of(const Text& text, const Measure& measure) {
  const Rect box = text_box(text, measure);
  return {box.left - 1.5, box.top - 1.5, box.right + 1.5, box.bottom + 0.5};
}

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

double hidden(const std::vector<Mark>& marks, const Rect& box) {
  double count = 0.0;
  const auto holds = [&](Point p) { return p.x >= box.left && p.x <= box.right && p.y >= box.top && p.y <= box.bottom; };
  for (const Mark& mark : marks) {
    const auto* line = std::get_if<Polyline>(&mark);
    const auto* area = std::get_if<Filled>(&mark);
    if (const auto* text = std::get_if<Text>(&mark); text && holds(text->at)) count += 20.0;
    if (area && !area->outline.empty() && holds(area->outline.front())) count += 4.0;
    if (!line || line->ink == Ink::grid || line->ink == Ink::frame) continue;
    for (std::size_t i = 1; i < line->points.size(); ++i) {
      const Point a = line->points[i - 1];
      const Point b = line->points[i];
      const double steps = std::clamp(std::ceil(std::hypot(b.x - a.x, b.y - a.y) / 4.0), 1.0, 400.0);
      for (double s = 0.0; s < steps; s += 1.0) {
        if (holds({a.x + (b.x - a.x) * s / steps, a.y + (b.y - a.y) * s / steps})) count += 1.0;
      }
    }
  }
  return count;
}

bool add_words_at_best(Canvas& canvas, const std::vector<Text>& places) {
  const Text* best = nullptr;
  double least = 0.0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Rect ground = ground_of(places[i], canvas.measure);
    const bool free = inside(ground, canvas.frame.place) &&
                      std::ranges::none_of(canvas.taken, [&](const Rect& other) { return overlap(ground, other); });
    if (!free) continue;
    const double cost = hidden(canvas.marks, ground) + kCostOfLaterPlace * static_cast<double>(i);
    if (best && cost >= least) continue;
    best = &places[i];
    least = cost;
  }
  if (!best) return false;
  const Rect ground = ground_of(*best, canvas.measure);
  canvas.taken.push_back(ground);
  canvas.marks.push_back(Filled{outline_of(ground), Ink::paper, kGroundOpacity});
  canvas.marks.push_back(*best);
  return true;
}

}  // namespace ringfall::plot
