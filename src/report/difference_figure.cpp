// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

#include "report/setup_figures.h"

namespace ringfall::report {
namespace {

constexpr double kRow_pt = 21.0;
constexpr double kAroundPanel_pt = 52.0;

/// Numbers that are not about the bow's sound, and those whose difference means little.
bool shown(const shot::Number& number) {
  constexpr std::string_view left_out[] = {"range_db", "floor_db", "impact_lag_s", "to_20_db_s"};
  return std::ranges::find(left_out, number.id) == std::end(left_out);
}

/// Numbers of one unit that any set-up can be held to the baseline by.
std::vector<const shot::Number*> numbers_in(const SessionReport& report, std::string_view unit) {
  std::vector<const shot::Number*> numbers;
  for (const shot::Number& number : shot::numbers()) {
    if (number.unit != unit || (!shown(number) && &number != report.main_number)) continue;
    const bool any = std::ranges::any_of(report.source.comparison.against, [&](const auto& against) {
      return std::ranges::any_of(against.numbers,
                                 [&](const auto& row) { return row.number->number == &number && row.difference.has_value(); });
    });
    if (any) numbers.push_back(&number);
  }
  return numbers;
}

plot::Panel panel_of(const SessionReport& report, std::string_view unit, const std::vector<const shot::Number*>& numbers) {
  const auto& comparison = report.source.comparison;
  plot::Panel panel;
  panel.x.quantity = fmt::format("Difference to '{}'", comparison.baseline);
  panel.x.unit = unit;
  for (const auto* number : numbers) panel.y.categories.emplace_back(number->label);
  const double noticeable = numbers.front()->noticeable;
  if (noticeable > 0.0) {
    panel.series.emplace_back(plot::Span{plot::Along::x, -noticeable, noticeable, "", plot::Ink::fill});
  }
  panel.series.emplace_back(plot::Rule{plot::Along::x, 0.0, "", plot::Ink::muted, plot::Dash::solid});
  const double count = static_cast<double>(comparison.against.size());
  for (std::size_t k = 0; k < comparison.against.size(); ++k) {
    const auto& against = comparison.against[k];
    plot::Intervals bars;
    bars.ink = plot::trace_ink(static_cast<int>(k) + 1);
    bars.name = against.setup;
    for (const auto& row : against.numbers) {
      const auto place = std::ranges::find(numbers, row.number->number);
      if (place == numbers.end() || !row.difference) continue;
      const double beside = (static_cast<double>(k) - 0.5 * (count - 1.0)) * std::min(0.3, 0.7 / count);
      bars.intervals.push_back({static_cast<double>(place - numbers.begin()) + beside, row.difference->interval.low,
                                row.difference->difference, row.difference->interval.high});
    }
    panel.series.emplace_back(std::move(bars));
  }
  panel.height_share = kAroundPanel_pt + kRow_pt * static_cast<double>(numbers.size());
  return panel;
}

}  // namespace

std::optional<plot::Figure> differences_figure(const SessionReport& report) {
  std::vector<std::string_view> units = {"points", "dB", "s"};
  if (std::ranges::find(units, report.main_number->unit) == units.end()) units.insert(units.begin(), report.main_number->unit);
  plot::Figure figure;
  figure.width_pt = 330.0;
  figure.height_pt = 40.0;
  figure.title = "Differences with 95 % intervals";
  for (const auto unit : units) {
    const auto numbers = numbers_in(report, unit);
    if (numbers.empty()) continue;
    figure.panels.push_back(panel_of(report, unit, numbers));
    figure.height_pt += figure.panels.back().height_share;
  }
  if (figure.panels.empty()) return std::nullopt;
  // The names once are enough, where there is most room for them.
  const auto roomiest = std::ranges::max_element(figure.panels, {}, &plot::Panel::height_share);
  for (auto& panel : figure.panels) {
    if (&panel != &*roomiest) panel.legend = plot::LegendPlace::none;
  }
  return figure;
}

}  // namespace ringfall::report
