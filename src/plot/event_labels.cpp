// SPDX-License-Identifier: GPL-3.0-or-later
#include "plot/event_labels.h"

#include <algorithm>
#include <cmath>

namespace ringfall::plot {
namespace {

constexpr std::size_t kMostRows = 6;
constexpr double kBeside_pt = 2.5;
constexpr double kClear_pt = 3.0;

struct Stretch {
  double left = 0.0;
  double right = 0.0;
};

Stretch stretch_of(const EventLabel& label, const Measure& measure) {
  const double width = measure(label.words, kLabel_pt);
  if (label.left_of_line) return {label.x_pt - kBeside_pt - width, label.x_pt};
  return {label.x_pt, label.x_pt + kBeside_pt + width};
}

bool meet(Stretch a, Stretch b) { return a.left < b.right + kClear_pt && b.left < a.right + kClear_pt; }

/// Does `label` in its row get on with one that is placed already? Two words in one row must be apart, and the
/// line of the higher one must not run through the words of the lower.
bool agree(const EventLabel& label, const EventLabel& placed, const Measure& measure) {
  if (!placed.row) return true;
  const Stretch own = stretch_of(label, measure);
  const Stretch other = stretch_of(placed, measure);
  if (*label.row == *placed.row) return !meet(own, other);
  const bool higher = *label.row > *placed.row;
  const double line = higher ? label.x_pt : placed.x_pt;
  const Stretch words = higher ? other : own;
  // Two rules at one place share their line.
  return line == label.x_pt && line == placed.x_pt ? true : line <= words.left - 1.0 || line >= words.right + 1.0;
}

/// Gives label `index` the lowest row in which it agrees with those that have one.
void place_one(std::vector<EventLabel>& labels, std::size_t index, const Rect& place, const Measure& measure) {
  EventLabel attempt = labels[index];
  const Stretch stretch = stretch_of(attempt, measure);
  if (attempt.words.empty() || stretch.left < place.left || stretch.right > place.right) return;
  for (std::size_t row = 0; row < kMostRows; ++row) {
    attempt.row = row;
    if (std::ranges::all_of(labels, [&](const EventLabel& placed) { return agree(attempt, placed, measure); })) {
      labels[index].row = row;
      return;
    }
  }
}

/// The first `split` labels stand right of their lines, the others left. The former are placed from the right,
/// the latter from the left: a label then only meets what lies behind it, and its own line stays clear of that.
std::vector<EventLabel> placed_with(std::vector<EventLabel> labels, std::size_t split, const Rect& place,
                                    const Measure& measure) {
  for (std::size_t i = split; i < labels.size(); ++i) labels[i].left_of_line = true;
  for (std::size_t i = split; i-- > 0;) place_one(labels, i, place, measure);
  for (std::size_t i = split; i < labels.size(); ++i) place_one(labels, i, place, measure);
  return labels;
}

/// Fewer labels without room count more than fewer rows.
std::size_t cost_of(const std::vector<EventLabel>& labels) {
  const auto dropped = std::ranges::count_if(labels, [](const EventLabel& l) { return !l.words.empty() && !l.row; });
  return static_cast<std::size_t>(dropped) * (kMostRows + 1) + event_rows(labels);
}

}  // namespace

std::vector<EventLabel> place_event_labels(const Panel& panel, const Frame& frame, const Measure& measure) {
  std::vector<EventLabel> labels;
  for (std::size_t i = 0; i < panel.series.size(); ++i) {
    const auto* rule = std::get_if<Rule>(&panel.series[i]);
    if (!rule || rule->axis != Along::x) continue;
    const double x = frame.x.to_page(rule->at);
    if (!(x >= frame.place.left - 0.01 && x <= frame.place.right + 0.01)) continue;
    labels.push_back({i, x, shortened(rule->label, frame.place.width() / 2.0, kLabel_pt, measure), std::nullopt, false});
  }
  std::ranges::stable_sort(labels, [](const EventLabel& a, const EventLabel& b) { return a.x_pt < b.x_pt; });
  std::vector<EventLabel> best;
  for (std::size_t split = labels.size() + 1; split-- > 0;) {
    std::vector<EventLabel> candidate = placed_with(labels, split, frame.place, measure);
    if (split == labels.size() || cost_of(candidate) < cost_of(best)) best = std::move(candidate);
  }
  return best;
}

std::size_t event_rows(const std::vector<EventLabel>& labels) {
  std::size_t rows = 0;
  for (const EventLabel& label : labels) rows = std::max(rows, label.row ? *label.row + 1 : 0);
  return rows;
}

void add_event_marks(Canvas& canvas, const std::vector<EventLabel>& labels) {
  const Rect& place = canvas.frame.place;
  for (const EventLabel& label : labels) {
    const auto& rule = std::get<Rule>(canvas.panel.series[label.series]);
    const double rows = label.row ? static_cast<double>(*label.row) + 1.0 : 0.0;
    const double head = place.top - kEventRow_pt * rows + (label.row ? 2.0 : 0.0);
    canvas.marks.push_back(Polyline{{{label.x_pt, head}, {label.x_pt, place.bottom}}, rule.ink, 0.9, rule.dash});
    if (!label.row) continue;
    const double beside = label.left_of_line ? -kBeside_pt : kBeside_pt;
    canvas.marks.push_back(Text{{label.x_pt + beside, head + kCapHeight * kLabel_pt},
                                label.words,
                                kLabel_pt,
                                rule.ink,
                                label.left_of_line ? Anchor::end : Anchor::start});
  }
}

}  // namespace ringfall::plot
