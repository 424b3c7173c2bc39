// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <limits>
#include <vector>

#include "compare/values.h"
#include "report/setup_figures.h"
#include "stats/summary.h"

namespace ringfall::report {
namespace {

constexpr double kBesideDots = 0.4;
constexpr double kBlocksReach = 0.6;  // of a set-up's room

/// "hum [points]" needs the reference of levels as well.
std::string unit_of(const SessionReport& report, const shot::Number& number) {
  const bool strength = number.id == "hum_strength_db" || number.id == "ping_strength_db";
  const bool level = number.unit == "dB" && number.id != "range_db";
  return std::string(number.unit) + (level || strength ? " " + report.level_reference : "");
}

/// The first comparison that a set-up has a part in, by this number.
const compare::NumberDifference* comparison_of(const SessionReport& report, std::size_t setup, const shot::Number& number) {
  const auto& all = report.source.comparison.against;
  for (std::size_t k = 0; k < all.size(); ++k) {
    if (setup != 0 && setup != k + 1) continue;
    for (const auto& row : all[k].numbers) {
      if (row.number->number == &number && row.difference) return &row;
    }
  }
  return nullptr;
}

/// Shots in columns by block, a stroke at each block's mean.
struct Columns {
  plot::Dots dots;
  plot::Trace strokes;
};

Columns columns_of(const SessionReport& report, std::size_t setup, const shot::Number& number) {
  auto blocks = compare::values_of(report.source.session, report.setups[setup].name, number);
  std::erase_if(blocks, [](const auto& block) { return block.empty(); });
  Columns columns;
  columns.dots.ink = columns.strokes.ink = plot::trace_ink(static_cast<int>(setup));
  columns.strokes.width_pt = 1.6;
  columns.strokes.dash = plot::Dash::solid;
  const double step = kBlocksReach / static_cast<double>(std::max<std::size_t>(1, blocks.size()));
  for (std::size_t k = 0; k < blocks.size(); ++k) {
    const double x = static_cast<double>(setup) + step * (static_cast<double>(k) - 0.5 * static_cast<double>(blocks.size() - 1));
    columns.dots.x.insert(columns.dots.x.end(), blocks[k].size(), x);
    columns.dots.y.insert(columns.dots.y.end(), blocks[k].begin(), blocks[k].end());
    if (blocks.size() < 2) continue;
    const double mean = *stats::mean(blocks[k]);
    const double gap = std::numeric_limits<double>::quiet_NaN();
    columns.strokes.x.insert(columns.strokes.x.end(), {x - 0.4 * step, x + 0.4 * step, gap});
    columns.strokes.y.insert(columns.strokes.y.end(), {mean, mean, gap});
  }
  return columns;
}

}  // namespace

plot::Figure dots_figure(const SessionReport& report, const shot::Number& number) {
  plot::Figure figure;
  figure.title = std::string(number.label);
  figure.width_pt = 330.0;
  figure.height_pt = 210.0;
  plot::Panel panel;
  std::vector<std::string> names;
  for (const auto& setup : report.setups) names.push_back(setup.name);
  panel.x = plot::category_axis("", names);
  panel.y.quantity = number.label;
  panel.y.unit = unit_of(report, number);
  panel.legend = plot::LegendPlace::none;
  for (std::size_t k = 0; k < report.setups.size(); ++k) {
    auto columns = columns_of(report, k, number);
    plot::Intervals means;
    means.ink = plot::trace_ink(static_cast<int>(k));
    if (const auto* spread = spread_of_setup(report, k, number); spread && spread->interval) {
      means.intervals.push_back({static_cast<double>(k) + kBesideDots, spread->interval->low, *spread->mean, spread->interval->high});
    }
    panel.series.emplace_back(std::move(columns.dots));
    if (!columns.strokes.x.empty()) panel.series.emplace_back(std::move(columns.strokes));
    panel.series.emplace_back(std::move(means));
  }
  figure.panels.push_back(std::move(panel));
  return figure;
}

const compare::Spread* spread_of_setup(const SessionReport& report, std::size_t setup, const shot::Number& number) {
  const auto* row = comparison_of(report, setup, number);
  if (!row) return nullptr;
  return setup == 0 ? &row->baseline : &row->setup;
}

std::string dots_caption(const SessionReport& report, const shot::Number& number) {
  bool blocks = false;
  bool sessions = false;
  for (std::size_t k = 1; k < report.setups.size(); ++k) {
    const auto* row = comparison_of(report, k, number);
    if (!row) continue;
    blocks = true;
    sessions = sessions || row->sessions > 1;
  }
  std::string text = "Every shot a dot, in columns by block";
  text += blocks ? ", a stroke at each block's mean; beside them the mean of the blocks with its 95 % interval over blocks." : ".";
  return sessions ? text + " What differs from session to session is in the dots, not in the interval." : text;
}

}  // namespace ringfall::report
