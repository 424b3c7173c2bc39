// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/panel_layout.h"

#include <algorithm>

#include "plot/axis_marks.h"
#include "plot/axis_range.h"
#include "plot/legend.h"
#include "plot/series_marks.h"

namespace ringfall::plot {
namespace {

constexpr double kRightAir_pt = 6.0;
constexpr double kPanelTitleRow_pt = 17.0;
constexpr double kAxisTitleRow_pt = 14.0;
constexpr double kAboveFrame_pt = 3.0;
constexpr double kTickLabelRow_pt = 12.0;
constexpr double kLegendAway_pt = 12.0;
constexpr double kBetweenTitles_pt = 14.0;

const LevelMap* first_map(const Panel& panel) {
  for (const Series& series : panel.series) {
    if (const auto* map = std::get_if<LevelMap>(&series)) return map;
  }
  return nullptr;
}

std::string y_title(const Panel& panel) { return axis_title(panel.y.quantity, panel.y.unit); }
std::string x_title(const Panel& panel) { return axis_title(panel.x.quantity, panel.x.unit); }

std::string bar_title(const Panel& panel) {
  const LevelMap* map = first_map(panel);
  return map ? axis_title(map->quantity, map->unit) : std::string();
}

/// Rows of axis titles over the frame: the colour bar's title stands beside that of y, or above it.
int title_rows(const Panel& panel, double cell_width_pt, const Measure& measure) {
  const std::string y = y_title(panel);
  const std::string bar = bar_title(panel);
  if (y.empty() && bar.empty()) return 0;
  if (y.empty() || bar.empty()) return 1;
  const double both = measure(y, kAxisTitle_pt) + measure(bar, kAxisTitle_pt) + kBetweenTitles_pt;
  return both <= cell_width_pt ? 1 : 2;
}

double legend_room(const PanelPlan& plan, double cell_width_pt, double height_pt, const Measure& measure) {
  if (plan.panel->legend != LegendPlace::right) return 0.0;
  const Frame frame = frame_of(plan, {plan.left_pt, 0.0, cell_width_pt * 0.75, height_pt});
  const auto entries = legend_entries(*plan.panel, frame, measure);
  return entries.empty() ? 0.0 : kLegendAway_pt + legend_width(entries, 0.35 * cell_width_pt, measure);
}

void add_titles(Canvas& canvas, const PanelPlan& plan, const Rect& cell) {
  const Panel& panel = canvas.panel;
  const Measure& measure = canvas.measure;
  const auto put = [&](const std::string& words, Point at, double size, Ink ink, Anchor anchor) {
    std::string fitting = shortened(words, cell.width(), size, measure);
    if (!fitting.empty()) canvas.marks.push_back(Text{at, std::move(fitting), size, ink, anchor});
  };
  const double top = canvas.frame.place.top - plan.head_pt;
  double base = top + kCapHeight * kPanelTitle_pt;
  put(panel.title, {cell.left, base}, kPanelTitle_pt, Ink::text, Anchor::start);
  base = top + (panel.title.empty() ? 0.0 : kPanelTitleRow_pt) + kCapHeight * kAxisTitle_pt;
  put(bar_title(panel), {cell.right, base}, kAxisTitle_pt, Ink::muted, Anchor::end);
  if (title_rows(panel, cell.width(), measure) == 2) base += kAxisTitleRow_pt;
  put(y_title(panel), {cell.left, base}, kAxisTitle_pt, Ink::muted, Anchor::start);
  if (plan.x_words) {
    // The foot ends with the title's descent.
    const double foot = canvas.frame.place.bottom + plan.foot_pt - kDescent * kAxisTitle_pt;
    put(x_title(panel), {canvas.frame.place.right, foot}, kAxisTitle_pt, Ink::muted, Anchor::end);
  }
}

}  // namespace

Frame frame_of(const PanelPlan& plan, const Rect& place) {
  Frame frame;
  frame.place = place;
  frame.x = {plan.panel->x.scale, plan.x_range.low, plan.x_range.high, place.left, place.right};
  frame.y = {plan.panel->y.scale, plan.y_range.low, plan.y_range.high, place.bottom, place.top};
  // The first category stands at the top.
  if (!plan.panel->y.categories.empty()) std::swap(frame.y.from_pt, frame.y.to_pt);
  return frame;
}

void plan_sides(PanelPlan& plan, double cell_width_pt, double height_pt, const Measure& measure) {
  const Panel& panel = *plan.panel;
  const Frame guess = frame_of(plan, {0.0, 0.0, 0.7 * cell_width_pt, height_pt});
  plan.left_pt = label_room_left(panel.y, guess.y, cell_width_pt, measure);
  plan.right_pt = kRightAir_pt;
  if (const LevelMap* map = first_map(panel)) plan.right_pt = colour_bar_room(*map, height_pt, measure);
  plan.right_pt = std::max(plan.right_pt, legend_room(plan, cell_width_pt, height_pt, measure));
  if (!panel.x.categories.empty()) return;
  // Half of the last number may reach beyond the frame.
  const Frame frame = frame_of(plan, {plan.left_pt, 0.0, cell_width_pt - plan.right_pt, height_pt});
  for (const Tick& tick : axis_ticks(panel.x, frame.x, Along::x, measure)) {
    const double end = frame.x.to_page(tick.at) + measure(tick.label, kLabel_pt) / 2.0;
    plan.right_pt = std::max(plan.right_pt, end - frame.place.right + 1.0);
  }
}

void plan_head_and_foot(PanelPlan& plan, double cell_width_pt, const Measure& measure) {
  const Panel& panel = *plan.panel;
  const Frame frame = frame_of(plan, {plan.left_pt, 0.0, cell_width_pt - plan.right_pt, 100.0});
  const std::size_t rows = event_rows(place_event_labels(panel, frame, measure));
  plan.head_pt = (panel.title.empty() ? 0.0 : kPanelTitleRow_pt) +
                 kAxisTitleRow_pt * title_rows(panel, cell_width_pt, measure) + kAboveFrame_pt +
                 kEventRow_pt * static_cast<double>(rows);
  plan.foot_pt = 4.0;
  if (!plan.x_words) return;
  std::size_t lines = 1;
  for (const auto& name : category_lines(panel.x, frame.place.width(), measure)) lines = std::max(lines, name.size());
  plan.foot_pt = kTickLabelRow_pt + kLineSpacing * kLabel_pt * static_cast<double>(lines - 1) + 3.0;
  if (!x_title(panel).empty()) plan.foot_pt += kAxisTitleRow_pt;
}

Canvas panel_marks(const PanelPlan& plan, const Rect& cell, const Rect& place, const Measure& measure) {
  const Panel& panel = *plan.panel;
  Canvas canvas{panel, frame_of(plan, place), measure, {}, {}, {}, 0};
  add_titles(canvas, plan, cell);
  canvas.marks.push_back(Clip{place});
  for (const Series& series : panel.series) {
    if (const auto* span = std::get_if<Span>(&series)) add_span_marks(canvas, *span);
  }
  canvas.marks.push_back(Unclip{});
  if (plan.x_known) add_x_grid_marks(canvas);
  if (plan.y_known) add_y_grid_marks(canvas);
  canvas.marks.push_back(Clip{place});
  for (const Series& series : panel.series) add_series_marks(canvas, series);
  canvas.marks.push_back(Unclip{});
  add_event_marks(canvas, place_event_labels(panel, canvas.frame, measure));
  add_frame_marks(canvas);
  if (plan.x_words && plan.x_known) add_x_label_marks(canvas, cell);
  if (plan.y_known) add_y_label_marks(canvas, cell);
  if (const LevelMap* map = first_map(panel)) add_colour_bar_marks(canvas, *map);
  const auto entries = legend_entries(panel, canvas.frame, measure);
  for (const Series& series : panel.series) add_series_words(canvas, series);
  if (panel.legend == LegendPlace::inside) add_legend_inside(canvas, entries);
  if (panel.legend == LegendPlace::right) add_legend_beside(canvas, entries, place.right + kLegendAway_pt, cell.right - place.right - kLegendAway_pt);
  if (!has_data(panel)) {
    canvas.marks.push_back(Text{{(place.left + place.right) / 2.0, (place.top + place.bottom) / 2.0}, "no data",
                                kPanelTitle_pt, Ink::muted, Anchor::middle});
  }
  return canvas;
}

}  // namespace ringfall::plot
