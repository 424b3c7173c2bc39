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
  // From the right: a label then only meets what lies behind it, and its own line stays clear of that.
  std::vector<std::size_t> order(labels.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return labels[a].x_pt > labels[b].x_pt; });
  for (const std::size_t index : order) {
    EventLabel& label = labels[index];
    if (label.words.empty()) continue;
    label.left_of_line = stretch_of(label, measure).right > frame.place.right;
    for (std::size_t row = 0; row < kMostRows; ++row) {
      EventLabel attempt = label;
      attempt.row = row;
      if (std::ranges::all_of(labels, [&](const EventLabel& placed) { return agree(attempt, placed, measure); })) {
        label.row = row;
        break;
      }
    }
  }
  return labels;
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
