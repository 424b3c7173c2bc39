// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/point_marks.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "plot/cues.h"

namespace ringfall::plot {
namespace {

constexpr double kCap_pt = 3.0;
/// Dots spread over this part of a category's room on each side at most.
constexpr double kSpread = 0.3;

bool has_place(Point point) { return !std::isnan(point.x) && !std::isnan(point.y); }

/// Sideways shift of each dot, by index; dots without a place keep 0. `earlier` are those of other series.
std::vector<double> spread_sideways(const std::vector<Point>& places, const std::vector<PlacedDot>& earlier,
                                    double radius_pt, double most_pt) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (has_place(places[i])) order.push_back(i);
  }
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return places[a].x != places[b].x ? places[a].x < places[b].x : places[a].y < places[b].y;
  });
  const double room = 2.0 * radius_pt + 0.6;
  std::vector<double> shift(places.size(), 0.0);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const Point here = places[order[k]];
    const auto hides = [&](double candidate) {
      for (const PlacedDot& dot : earlier) {
        if (dot.place.x == here.x && std::hypot(candidate - dot.shift_pt, here.y - dot.place.y) < room) return true;
      }
      for (std::size_t j = k; j-- > 0;) {
        const std::size_t other = order[j];
        if (places[other].x != here.x || here.y - places[other].y >= room) return false;
        if (std::hypot(candidate - shift[other], here.y - places[other].y) < room) return true;
      }
      return false;
    };
    double best = 0.0;
    for (int step = 0; hides(best); ++step) {
      const double away = room / 2.0 * (step / 2 + 1);
      if (away > most_pt) {
        // No room left: the dots lie over one another, still within their category.
        best = 0.0;
        break;
      }
      best = step % 2 == 0 ? away : -away;
    }
    shift[order[k]] = best;
  }
  return shift;
}

void add_bar(std::vector<Mark>& marks, Point from, Point to, Ink ink, double width_pt, double cap_pt) {
  marks.push_back(Polyline{{from, to}, ink, width_pt, Dash::solid});
  const bool upright = std::abs(to.y - from.y) >= std::abs(to.x - from.x);
  for (const Point& end : {from, to}) {
    const Point half = upright ? Point{cap_pt / 2.0, 0.0} : Point{0.0, cap_pt / 2.0};
    marks.push_back(Polyline{{{end.x - half.x, end.y - half.y}, {end.x + half.x, end.y + half.y}}, ink, width_pt, Dash::solid});
  }
}

}  // namespace

void add_marker(std::vector<Mark>& marks, Point at, Ink ink, double radius_pt, bool hollow) {
  std::vector<Point> outline = marker_outline(marker_of(ink), at, radius_pt);
  if (!hollow) {
    marks.push_back(Filled{std::move(outline), ink, 1.0});
    return;
  }
  marks.push_back(Filled{outline, Ink::paper, 1.0});
  outline.push_back(outline.front());
  // Half a side more closes the corner where the line begins.
  outline.push_back({(outline[0].x + outline[1].x) / 2.0, (outline[0].y + outline[1].y) / 2.0});
  marks.push_back(Polyline{std::move(outline), ink, 0.9, Dash::solid});
}

void add_dot_marks(Canvas& canvas, const Dots& dots) {
  check(dots.x.size() == dots.y.size(), "dots have as many x as y");
  check(dots.low.size() == dots.high.size() && (dots.low.empty() || dots.low.size() == dots.y.size()),
        "error bars are as many as the dots");
  std::vector<Point> places;
  for (std::size_t i = 0; i < dots.x.size(); ++i) {
    places.push_back(canvas.frame.to_page({dots.x[i], dots.y[i]}));
    if (!has_place(places.back())) ++canvas.not_drawn;
  }
  const std::size_t categories = canvas.panel.x.categories.size();
  if (categories > 0) {
    const double slot = canvas.frame.place.width() / static_cast<double>(categories);
    const std::vector<double> shift = spread_sideways(places, canvas.dots, dots.radius_pt, kSpread * slot);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (has_place(places[i])) canvas.dots.push_back({places[i], shift[i]});
      places[i].x += shift[i];
    }
  }
  for (std::size_t i = 0; i < dots.low.size(); ++i) {
    const double low = canvas.frame.y.to_page(dots.low[i]);
    const double high = canvas.frame.y.to_page(dots.high[i]);
    if (!has_place(places[i]) || std::isnan(low) || std::isnan(high)) continue;
    add_bar(canvas.marks, {places[i].x, low}, {places[i].x, high}, dots.ink, 0.9, kCap_pt);
  }
  for (const Point& place : places) {
    if (has_place(place)) add_marker(canvas.marks, place, dots.ink, dots.radius_pt, dots.hollow);
  }
}

void add_interval_marks(Canvas& canvas, const Intervals& intervals) {
  const bool along_x = !canvas.panel.y.categories.empty();
  const auto page = [&](double position, double value) {
    return canvas.frame.to_page(along_x ? Point{value, position} : Point{position, value});
  };
  for (const Interval& interval : intervals.intervals) {
    const Point low = page(interval.position, interval.low);
    const Point mid = page(interval.position, interval.mid);
    const Point high = page(interval.position, interval.high);
    if (has_place(low) && has_place(high)) add_bar(canvas.marks, low, high, intervals.ink, 1.5, 5.0);
    if (has_place(mid)) add_marker(canvas.marks, mid, intervals.ink, 3.2, false);
    if (!has_place(low) || !has_place(mid) || !has_place(high)) ++canvas.not_drawn;
  }
}

}  // namespace ringfall::plot
