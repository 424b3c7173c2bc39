// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/legend.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "plot/point_marks.h"
#include "plot/series_marks.h"

namespace ringfall::plot {
namespace {

constexpr double kSample_pt = 18.0;
constexpr double kGap_pt = 5.0;
constexpr double kRow_pt = 12.0;
constexpr double kPad_pt = 4.0;

std::string name_of(const Series& series, const Frame& frame, const Measure& measure) {
  return std::visit(Overloaded{
                        [&](const Span& span) {
                          return label_fits(span, frame, measure) ? std::string() : span.label;
                        },
                        [](const LevelMap&) { return std::string(); },
                        [](const Trace& trace) { return trace.name; },
                        [](const Dots& dots) { return dots.name; },
                        [](const Intervals& intervals) { return intervals.name; },
                        [](const Rule&) { return std::string(); },
                        [](const Fit&) { return std::string(); },
                        [](const Notes& notes) { return notes.name; },
                    },
                    series);
}

void add_sample(std::vector<Mark>& marks, const Series& series, double left, double y) {
  const double middle = left + kSample_pt / 2.0;
  const std::vector<Point> across{{left, y}, {left + kSample_pt, y}};
  std::visit(Overloaded{
                 [&](const Span& span) {
                   marks.push_back(Filled{outline_of({left, y - 4.0, left + kSample_pt, y + 4.0}), span.ink,
                                          span.ink == Ink::fill ? 1.0 : 0.15});
                 },
                 [](const LevelMap&) {},
                 [&](const Trace& trace) {
                   const Dash dash = trace.form == Form::stem ? Dash::solid : trace.dash.value_or(dash_of(trace.ink));
                   marks.push_back(Polyline{across, trace.ink, std::max(trace.width_pt, 1.4), dash});
                 },
                 [&](const Dots& dots) { add_marker(marks, {middle, y}, dots.ink, 2.6, dots.hollow); },
                 [&](const Intervals& intervals) {
                   marks.push_back(Polyline{across, intervals.ink, 1.5, Dash::solid});
                   add_marker(marks, {middle, y}, intervals.ink, 2.8, false);
                 },
                 [](const Rule&) {},
                 [](const Fit&) {},
                 [&](const Notes& notes) { add_marker(marks, {middle, y}, notes.ink, 2.6, true); },
             },
             series);
}

/// One entry a row; `first_middle` is the middle of the first.
void add_rows(Canvas& canvas, const std::vector<LegendEntry>& entries, double left, double first_middle,
              double width_pt, std::size_t rows) {
  double y = first_middle;
  const double words_left = left + kSample_pt + kGap_pt;
  const double words_width = width_pt - kSample_pt - kGap_pt;
  for (std::size_t i = 0; i < std::min(entries.size(), rows); ++i, y += kRow_pt) {
    std::string words = entries[i].words;
    if (i + 1 == rows && entries.size() > rows) {
      words = "+ " + std::to_string(entries.size() - i) + " more";
    } else {
      add_sample(canvas.marks, *entries[i].series, left, y);
    }
    canvas.marks.push_back(Text{{words_left, y + kCapHeight / 2.0 * kLabel_pt},
                                shortened(words, words_width, kLabel_pt, canvas.measure),
                                kLabel_pt,
                                Ink::text,
                                Anchor::start});
  }
}

std::size_t rows_within(double height_pt) {
  return static_cast<std::size_t>(std::max(0.0, std::floor((height_pt - 2.0 * kPad_pt) / kRow_pt)));
}

}  // namespace

std::vector<LegendEntry> legend_entries(const Panel& panel, const Frame& frame, const Measure& measure) {
  std::vector<LegendEntry> entries;
  for (const Series& series : panel.series) {
    std::string words = name_of(series, frame, measure);
    if (!words.empty()) entries.push_back({&series, std::move(words)});
  }
  return entries;
}

double legend_width(const std::vector<LegendEntry>& entries, double most_pt, const Measure& measure) {
  double width = 0.0;
  for (const LegendEntry& entry : entries) {
    width = std::max(width, kSample_pt + kGap_pt + measure(entry.words, kLabel_pt) + 0.5);
  }
  return std::min(width, most_pt);
}

void add_legend_inside(Canvas& canvas, const std::vector<LegendEntry>& entries) {
  const Rect& place = canvas.frame.place;
  constexpr double margin = 4.0;
  const double width = legend_width(entries, 0.6 * place.width(), canvas.measure);
  const std::size_t rows = std::min(entries.size(), rows_within(place.height() - 2.0 * margin));
  if (rows == 0 || width < kSample_pt + kGap_pt + kLabel_pt) return;
  const double box_width = width + 2.0 * kPad_pt;
  const double box_height = static_cast<double>(rows) * kRow_pt + 2.0 * kPad_pt - 3.0;
  const double right = place.right - margin - box_width;
  const double bottom = place.bottom - margin - box_height;
  const std::array<Point, 4> corners = {{{right, place.top + margin},
                                         {place.left + margin, place.top + margin},
                                         {right, bottom},
                                         {place.left + margin, bottom}}};
  Rect best{};
  double least = 0.0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Rect box{corners[i].x, corners[i].y, corners[i].x + box_width, corners[i].y + box_height};
    const double cost = hidden(canvas.marks, box);
    if (i == 0 || cost < least) {
      best = box;
      least = cost;
    }
  }
  canvas.marks.push_back(Filled{outline_of(best), Ink::paper, 0.85});
  canvas.taken.push_back(best);
  add_rows(canvas, entries, best.left + kPad_pt, best.top + kPad_pt - 1.5 + kRow_pt / 2.0, width, rows);
}

void add_legend_beside(Canvas& canvas, const std::vector<LegendEntry>& entries, double left_pt, double width_pt) {
  const Rect& place = canvas.frame.place;
  add_rows(canvas, entries, left_pt, place.top + kRow_pt / 2.0, width_pt, rows_within(place.height() + 2.0 * kPad_pt));
}

}  // namespace ringfall::plot
