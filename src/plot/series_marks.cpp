// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/series_marks.h"

#include <algorithm>
#include <cmath>

#include "plot/level_map_image.h"
#include "plot/point_marks.h"
#include "plot/thinning.h"

namespace ringfall::plot {
namespace {

constexpr double kInside_pt = 3.0;

/// The part of the frame a span covers; empty when outside.
Rect span_place(const Span& span, const Frame& frame) {
  Rect place = frame.place;
  const AxisMap& axis = span.axis == Along::x ? frame.x : frame.y;
  const bool below_log = axis.scale == Scale::logarithmic && span.low <= 0.0;
  const double a = axis.to_page(below_log ? axis.low : span.low);
  const double b = axis.to_page(span.high);
  if (std::isnan(a) || std::isnan(b)) return {};
  double& begin = span.axis == Along::x ? place.left : place.top;
  double& end = span.axis == Along::x ? place.right : place.bottom;
  const double first = std::clamp(std::min(a, b), begin, end);
  const double last = std::clamp(std::max(a, b), begin, end);
  begin = first;
  end = last;
  return place;
}

void add_trace_marks(Canvas& canvas, const Trace& trace) {
  PageRuns thinned = thin(trace.x, trace.y, canvas.frame);
  canvas.not_drawn += thinned.without_place;
  const Dash dash = trace.dash.value_or(dash_of(trace.ink));
  const double foot = canvas.frame.place.bottom;
  for (std::vector<Point>& run : thinned.runs) {
    if (trace.form == Form::stem) {
      for (const Point& point : run) {
        canvas.marks.push_back(Polyline{{{point.x, foot}, point}, trace.ink, trace.width_pt, Dash::solid});
        if (run.size() <= 100) add_marker(canvas.marks, point, trace.ink, 1.8, false);
      }
      continue;
    }
    if (run.size() == 1) {
      // A single value between gaps is no line, but it is there.
      add_marker(canvas.marks, run.front(), trace.ink, trace.width_pt, false);
      continue;
    }
    if (trace.form == Form::step) {
      std::vector<Point> stairs;
      for (const Point& point : run) {
        if (!stairs.empty()) stairs.push_back({point.x, stairs.back().y});
        stairs.push_back(point);
      }
      run = std::move(stairs);
    }
    canvas.marks.push_back(Polyline{std::move(run), trace.ink, trace.width_pt, dash});
  }
}

void add_rule_marks(Canvas& canvas, const Rule& rule) {
  if (rule.axis == Along::x) return;
  const double y = canvas.frame.y.to_page(rule.at);
  const Rect& place = canvas.frame.place;
  if (!(y >= place.top && y <= place.bottom)) return;
  canvas.marks.push_back(Polyline{{{place.left, y}, {place.right, y}}, rule.ink, 0.9, rule.dash});
}

void add_rule_words(Canvas& canvas, const Rule& rule) {
  const double y = canvas.frame.y.to_page(rule.at);
  const Rect& place = canvas.frame.place;
  if (rule.axis == Along::x || rule.label.empty() || !(y >= place.top && y <= place.bottom)) return;
  std::vector<Text> places;
  for (const double base : {y - kInside_pt - kDescent * kLabel_pt, y + kInside_pt + kCapHeight * kLabel_pt}) {
    places.push_back({{place.right - kInside_pt, base}, rule.label, kLabel_pt, rule.ink, Anchor::end});
    places.push_back({{place.left + kInside_pt, base}, rule.label, kLabel_pt, rule.ink, Anchor::start});
  }
  add_words_at_best(canvas, places);
}

void add_span_words(Canvas& canvas, const Span& span) {
  if (span.label.empty() || !label_fits(span, canvas.frame, canvas.measure)) return;
  const Rect area = span_place(span, canvas.frame);
  const double base = area.top + kInside_pt + kCapHeight * kLabel_pt;
  std::vector<Text> places;
  const auto propose = [&](double x, Anchor anchor) { places.push_back({{x, base}, span.label, kLabel_pt, Ink::muted, anchor}); };
  if (span.axis == Along::x) propose((area.left + area.right) / 2.0, Anchor::middle);
  propose(area.right - kInside_pt, Anchor::end);
  propose(area.left + kInside_pt, Anchor::start);
  // On the shade itself, without a ground.
  const auto cost = [&](const Text& text) { return hidden(canvas.marks, text_box(text, canvas.measure)); };
  const Text best = *std::ranges::min_element(places, {}, cost);
  canvas.taken.push_back(text_box(best, canvas.measure));
  canvas.marks.push_back(best);
}

void add_fit_marks(Canvas& canvas, const Fit& fit) {
  const Point from = canvas.frame.to_page(fit.from);
  const Point to = canvas.frame.to_page(fit.to);
  if (std::isnan(from.x) || std::isnan(from.y) || std::isnan(to.x) || std::isnan(to.y)) {
    ++canvas.not_drawn;
    return;
  }
  canvas.marks.push_back(Polyline{{from, to}, fit.ink, 1.6, Dash::solid});
}

void add_fit_words(Canvas& canvas, const Fit& fit) {
  const Point from = canvas.frame.to_page(fit.from);
  const Point to = canvas.frame.to_page(fit.to);
  if (fit.label.empty() || std::isnan(from.x + from.y + to.x + to.y)) return;
  // Beside the line on its open side: right of a falling line above it, left of a rising one.
  const bool falling = (to.y - from.y) * (to.x - from.x) >= 0.0;
  std::vector<Text> places;
  for (const double along : {0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9}) {
    const Point on{from.x + along * (to.x - from.x), from.y + along * (to.y - from.y)};
    places.push_back({{on.x + (falling ? 5.0 : -5.0), on.y - 3.0}, fit.label, kLabel_pt, fit.ink,
                      falling ? Anchor::start : Anchor::end});
    places.push_back({{on.x + (falling ? -5.0 : 5.0), on.y + 3.0 + kCapHeight * kLabel_pt}, fit.label, kLabel_pt,
                      fit.ink, falling ? Anchor::end : Anchor::start});
  }
  add_words_at_best(canvas, places);
}

void add_note_marks(Canvas& canvas, const Notes& notes) {
  for (const Note& note : notes.notes) {
    const Point at = canvas.frame.to_page(note.at);
    if (std::isnan(at.x) || std::isnan(at.y)) {
      ++canvas.not_drawn;
      continue;
    }
    add_marker(canvas.marks, at, notes.ink, 2.6, true);
    canvas.taken.push_back({at.x - 2.6, at.y - 2.6, at.x + 2.6, at.y + 2.6});
  }
}

void add_note_words(Canvas& canvas, const Notes& notes) {
  constexpr double beside = 5.5;
  const double middle = (kCapHeight / 2.0) * kLabel_pt;
  for (const Note& note : notes.notes) {
    const Point at = canvas.frame.to_page(note.at);
    if (note.label.empty() || std::isnan(at.x) || std::isnan(at.y)) continue;
    const auto text = [&](double x, double y, Anchor anchor) {
      return Text{{x, y}, note.label, kLabel_pt, notes.ink, anchor};
    };
    add_words_at_best(canvas, {text(at.x + beside, at.y + middle, Anchor::start),
                                     text(at.x, at.y - beside, Anchor::middle),
                                     text(at.x - beside, at.y + middle, Anchor::end),
                                     text(at.x, at.y + beside + 2.0 * middle, Anchor::middle),
                                     text(at.x + beside, at.y - beside, Anchor::start),
                                     text(at.x - beside, at.y - beside, Anchor::end)});
  }
}

}  // namespace

bool label_fits(const Span& span, const Frame& frame, const Measure& measure) {
  const Rect area = span_place(span, frame);
  return measure(span.label, kLabel_pt) + 2.0 * kInside_pt <= area.width() &&
         (kCapHeight + kDescent) * kLabel_pt + 2.0 * kInside_pt <= area.height();
}

void add_span_marks(Canvas& canvas, const Span& span) {
  const Rect area = span_place(span, canvas.frame);
  if (area.width() <= 0.0 || area.height() <= 0.0) return;
  const double opacity = span.ink == Ink::fill ? 1.0 : 0.15;
  canvas.marks.push_back(Filled{outline_of(area), span.ink, opacity});
}

void add_series_marks(Canvas& canvas, const Series& series) {
  std::visit(Overloaded{
                 [](const Span&) {},
                 [&](const LevelMap& map) {
                   if (auto image = level_map_image(map, canvas.frame)) canvas.marks.push_back(std::move(*image));
                 },
                 [&](const Trace& trace) { add_trace_marks(canvas, trace); },
                 [&](const Dots& dots) { add_dot_marks(canvas, dots); },
                 [&](const Intervals& intervals) { add_interval_marks(canvas, intervals); },
                 [&](const Rule& rule) { add_rule_marks(canvas, rule); },
                 [&](const Fit& fit) { add_fit_marks(canvas, fit); },
                 [&](const Notes& notes) { add_note_marks(canvas, notes); },
             },
             series);
}

void add_series_words(Canvas& canvas, const Series& series) {
  std::visit(Overloaded{
                 [&](const Span& span) { add_span_words(canvas, span); },
                 [](const LevelMap&) {},
                 [](const Trace&) {},
                 [](const Dots&) {},
                 [](const Intervals&) {},
                 [&](const Rule& rule) { add_rule_words(canvas, rule); },
                 [&](const Fit& fit) { add_fit_words(canvas, fit); },
                 [&](const Notes& notes) { add_note_words(canvas, notes); },
             },
             series);
}

}  // namespace ringfall::plot
