// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/axis_marks.h"

#include <algorithm>
#include <cmath>
#include <limits>


namespace ringfall::plot {
namespace {

constexpr double kNearestX_pt = 34.0;
constexpr double kNearestY_pt = 17.0;
/// The steps of a logarithmic axis are uneven: the closest pair decides.
constexpr double kNearestLogX_pt = 18.0;
constexpr double kNearestLogY_pt = 13.0;
constexpr double kLabelAway_pt = 5.0;
constexpr double kBarAway_pt = 9.0;
constexpr double kBarWidth_pt = 7.0;
constexpr std::size_t kBarSteps = 255;
constexpr double kHairline_pt = 0.6;
/// From the frame's foot to the base line of the labels; clear of a y label at the very foot.
constexpr double kFootLabel_pt = 5.5 + kCapHeight * kLabel_pt;

double line_extent(const std::string&) { return (kCapHeight + kDescent) * kLabel_pt; }

Text y_label(const std::string& words, double right, double y) {
  return {{right, y + kCapHeight / 2.0 * kLabel_pt}, words, kLabel_pt, Ink::muted, Anchor::end};
}

AxisMap bar_map(const LevelMap& map, double top, double bottom) {
  return {Scale::linear, map.low, map.high, bottom, top};
}

std::vector<Tick> bar_ticks(const AxisMap& axis) { return ticks(axis, Numbers::plain, kNearestY_pt, line_extent); }

}  // namespace

std::string axis_title(const std::string& quantity, const std::string& unit) {
  if (unit.empty()) return quantity;
  return quantity.empty() ? unit : quantity + " (" + unit + ")";
}

std::vector<Tick> axis_ticks(const Axis& axis, const AxisMap& map, Along along, const Measure& measure) {
  if (!axis.categories.empty()) {
    std::vector<Tick> row;
    for (std::size_t i = 0; i < axis.categories.size(); ++i) row.push_back({static_cast<double>(i), axis.categories[i]});
    return row;
  }
  const Numbers numbers = axis.unit == "Hz" ? Numbers::kilo : Numbers::plain;
  const bool logarithmic = map.scale == Scale::logarithmic;
  if (along == Along::y) return ticks(map, numbers, logarithmic ? kNearestLogY_pt : kNearestY_pt, line_extent);
  return ticks(map, numbers, logarithmic ? kNearestLogX_pt : kNearestX_pt, [&](const std::string& label) { return measure(label, kLabel_pt); });
}

std::vector<std::vector<std::string>> category_lines(const Axis& axis, double width_pt, const Measure& measure) {
  const double slot = width_pt / static_cast<double>(std::max<std::size_t>(1, axis.categories.size()));
  std::vector<std::vector<std::string>> lines;
  for (const std::string& name : axis.categories) {
    lines.push_back(wrapped(name, slot - kLabelGap_pt, kLabel_pt, 3, measure));
  }
  return lines;
}

double label_room_left(const Axis& axis, const AxisMap& map, double cell_width_pt, const Measure& measure) {
  double width = 8.0;
  for (const Tick& tick : axis_ticks(axis, map, Along::y, measure)) width = std::max(width, measure(tick.label, kLabel_pt));
  return std::min(width, 0.4 * cell_width_pt) + kLabelAway_pt;
}

void add_x_grid_marks(Canvas& canvas) {
  const Frame& frame = canvas.frame;
  const Rect& place = frame.place;
  // Categories of x are columns of dots: a line through them would only disturb.
  if (!canvas.panel.x.categories.empty()) return;
  for (const Tick& tick : axis_ticks(canvas.panel.x, frame.x, Along::x, canvas.measure)) {
    const double x = frame.x.to_page(tick.at);
    canvas.marks.push_back(Polyline{{{x, place.top}, {x, place.bottom}}, Ink::grid, kHairline_pt, Dash::solid});
  }
}

void add_y_grid_marks(Canvas& canvas) {
  const Frame& frame = canvas.frame;
  const Rect& place = frame.place;
  for (const Tick& tick : axis_ticks(canvas.panel.y, frame.y, Along::y, canvas.measure)) {
    const double y = frame.y.to_page(tick.at);
    canvas.marks.push_back(Polyline{{{place.left, y}, {place.right, y}}, Ink::grid, kHairline_pt, Dash::solid});
  }
}

void add_frame_marks(Canvas& canvas) {
  const Rect& place = canvas.frame.place;
  canvas.marks.push_back(Polyline{{{place.left, place.top}, {place.left, place.bottom}, {place.right, place.bottom}},
                                  Ink::frame, kHairline_pt, Dash::solid});
}

void add_x_label_marks(Canvas& canvas, const Rect& cell) {
  const Frame& frame = canvas.frame;
  const auto put = [&](double x, double base, const std::string& words) {
    const Text text{{x, base}, words, kLabel_pt, Ink::muted, Anchor::middle};
    const Rect box = text_box(text, canvas.measure);
    if (!words.empty() && box.left >= cell.left && box.right <= cell.right) canvas.marks.push_back(text);
  };
  const double base = frame.place.bottom + kFootLabel_pt;
  if (canvas.panel.x.categories.empty()) {
    for (const Tick& tick : axis_ticks(canvas.panel.x, frame.x, Along::x, canvas.measure)) {
      put(frame.x.to_page(tick.at), base, tick.label);
    }
    return;
  }
  const auto names = category_lines(canvas.panel.x, frame.place.width(), canvas.measure);
  for (std::size_t i = 0; i < names.size(); ++i) {
    for (std::size_t line = 0; line < names[i].size(); ++line) {
      put(frame.x.to_page(static_cast<double>(i)), base + kLineSpacing * kLabel_pt * static_cast<double>(line), names[i][line]);
    }
  }
}

void add_y_label_marks(Canvas& canvas, const Rect& cell) {
  const Frame& frame = canvas.frame;
  const double right = frame.place.left - kLabelAway_pt;
  double last_base = std::numeric_limits<double>::quiet_NaN();
  for (const Tick& tick : axis_ticks(canvas.panel.y, frame.y, Along::y, canvas.measure)) {
    const Text text = y_label(shortened(tick.label, right - cell.left + 0.01, kLabel_pt, canvas.measure), right, frame.y.to_page(tick.at));
    const Rect box = text_box(text, canvas.measure);
    // Categories stand where they stand: when they are too close some names are left out.
    const bool crowded = std::abs(text.at.y - last_base) < line_extent(text.words);
    if (text.words.empty() || crowded || box.left < cell.left - 0.02) continue;
    last_base = text.at.y;
    canvas.marks.push_back(text);
  }
}

double colour_bar_room(const LevelMap& map, double height_pt, const Measure& measure) {
  double width = 0.0;
  for (const Tick& tick : bar_ticks(bar_map(map, 0.0, height_pt))) width = std::max(width, measure(tick.label, kLabel_pt));
  return kBarAway_pt + kBarWidth_pt + kLabelAway_pt + width;
}

void add_colour_bar_marks(Canvas& canvas, const LevelMap& map) {
  const Rect& place = canvas.frame.place;
  const Rect bar{place.right + kBarAway_pt, place.top, place.right + kBarAway_pt + kBarWidth_pt, place.bottom};
  Image image{bar, 1, kBarSteps, {}};
  for (std::size_t row = 0; row < kBarSteps; ++row) image.steps.push_back(static_cast<std::uint8_t>(kBarSteps - row));
  canvas.marks.push_back(std::move(image));
  std::vector<Point> edge = outline_of(bar);
  edge.push_back(edge.front());
  canvas.marks.push_back(Polyline{std::move(edge), Ink::frame, kHairline_pt, Dash::solid});
  const AxisMap axis = bar_map(map, bar.top, bar.bottom);
  for (const Tick& tick : bar_ticks(axis)) {
    const double y = axis.to_page(tick.at);
    canvas.marks.push_back(Text{{bar.right + kLabelAway_pt, y + kCapHeight / 2.0 * kLabel_pt}, tick.label, kLabel_pt, Ink::muted, Anchor::start});
  }
}

}  // namespace ringfall::plot
