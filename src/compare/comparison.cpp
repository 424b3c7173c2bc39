// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/failure.h"
#include "base/nearest.h"
#include "compare/confounders.h"
#include "stats/multiple.h"
#include "stats/permutation.h"
#include "stats/power.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr double kSignificant = 0.05;

std::vector<double> flattened(const stats::Blocks& blocks) {
  std::vector<double> values;
  for (const auto& block : blocks) values.insert(values.end(), block.begin(), block.end());
  return values;
}

std::vector<double> units_of(const stats::Blocks& blocks, stats::Unit unit) {
  return unit == stats::Unit::block ? stats::block_means(blocks) : flattened(blocks);
}

Spread spread_of(const stats::Blocks& blocks) {
  const auto values = flattened(blocks);
  Spread spread;
  spread.n = values.size();
  spread.mean = stats::mean(values);
  spread.deviation = stats::standard_deviation(values);
  return spread;
}

NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup,
                               const shot::Number& number, stats::Unit unit) {
  const auto first = values_of(session, baseline, number);
  const auto second = values_of(session, setup, number);
  NumberDifference result;
  result.number = &number;
  result.baseline = spread_of(first);
  result.setup = spread_of(second);
  result.difference = stats::blocked_difference(first, second, unit);
  const auto first_units = units_of(first, unit);
  const auto second_units = units_of(second, unit);
  if (const auto test = stats::permute_groups(first_units, second_units)) result.permutation_p = test->p;
  if (!result.difference) return result;
  const double found = result.difference->difference;
  result.verdict = verdict_of(found, result.difference->interval, number.noticeable);
  if (result.verdict == Verdict::not_settled) {
    // The spread between units, as the difference's own standard error has it.
    const double n = 2.0 / (1.0 / static_cast<double>(first_units.size()) + 1.0 / static_cast<double>(second_units.size()));
    const double deviation = result.difference->standard_error * std::sqrt(n / 2.0);
    const double half_width = half_width_to_settle(found, number.noticeable);
    if (deviation > 0.0 && half_width > 0.0) result.units_to_settle = stats::shots_for_half_width(half_width, deviation);
  }
  return result;
}

/// The main number stands by itself; the others share the error they may make together.
void adjust(std::vector<NumberDifference>& numbers) {
  std::vector<double> p;
  for (std::size_t k = 1; k < numbers.size(); ++k) p.push_back(numbers[k].difference ? numbers[k].difference->p : 1.0);
  const auto adjusted = stats::holm_adjusted(p);
  if (!numbers.empty()) numbers[0].adjusted_p = numbers[0].difference ? numbers[0].difference->p : 1.0;
  for (std::size_t k = 1; k < numbers.size(); ++k) {
    numbers[k].adjusted_p = adjusted[k - 1];
    // A side number that only stands out by itself, among so many, may be chance.
    const bool claims = numbers[k].verdict != Verdict::not_settled && numbers[k].verdict != Verdict::no_difference_heard;
    if (claims && numbers[k].adjusted_p >= kSignificant) numbers[k].verdict = Verdict::hint;
  }
}

std::size_t unit_count(const Session& session, const std::string& setup, stats::Unit unit) {
  std::size_t blocks = 0;
  std::size_t shots = 0;
  for (const auto* block : session.kept()) {
    if (block->setup != setup || block->shots.empty()) continue;
    ++blocks;
    shots += block->shots.size();
  }
  return unit == stats::Unit::block ? blocks : shots;
}

const shot::Number& wanted_number(const std::string& id) {
  if (const auto* number = shot::find_number(id)) return *number;
  std::vector<std::string> names;
  for (const auto& number : shot::numbers()) names.emplace_back(number.id);
  throw RequestFailure(fmt::format("there is no number '{}'{}", id, did_you_mean(id, names)));
}

}  // namespace

stats::Blocks values_of(const Session& session, const std::string& setup, const shot::Number& number) {
  stats::Blocks blocks;
  for (const auto* block : session.kept()) {
    if (block->setup != setup) continue;
    std::vector<double> values;
    for (const auto& entry : block->shots) {
      if (const auto value = number.of(entry.shot)) values.push_back(*value);
    }
    blocks.push_back(std::move(values));
  }
  return blocks;
}

Comparison compare_setups(const Session& session, const std::optional<std::string>& baseline,
                          const std::string& main_number) {
  Comparison comparison;
  comparison.setups = session.setups();
  if (comparison.setups.size() < 2) throw RequestFailure("a comparison needs two set-ups or more");
  comparison.baseline = baseline.value_or(comparison.setups.front());
  const auto place = std::ranges::find(comparison.setups, comparison.baseline);
  if (place == comparison.setups.end()) {
    throw RequestFailure(fmt::format("there is no set-up '{}'{}", comparison.baseline,
                                     did_you_mean(comparison.baseline, comparison.setups)));
  }
  std::rotate(comparison.setups.begin(), place, place + 1);
  const shot::Number& main = wanted_number(main_number);
  comparison.main_number = main.id;
  for (std::size_t k = 1; k < comparison.setups.size(); ++k) {
    SetUpComparison against;
    against.setup = comparison.setups[k];
    against.unit = stats::unit_of(values_of(session, comparison.baseline, main), values_of(session, against.setup, main));
    against.baseline_units = unit_count(session, comparison.baseline, against.unit);
    against.setup_units = unit_count(session, against.setup, against.unit);
    against.numbers.push_back(difference_of(session, comparison.baseline, against.setup, main, against.unit));
    for (const shot::Number& number : shot::numbers()) {
      if (&number == &main) continue;
      auto difference = difference_of(session, comparison.baseline, against.setup, number, against.unit);
      if (difference.baseline.n > 0 || difference.setup.n > 0) against.numbers.push_back(std::move(difference));
    }
    adjust(against.numbers);
    comparison.against.push_back(std::move(against));
  }
  comparison.findings = confounders(session, comparison.baseline);
  return comparison;
}

}  // namespace ringfall::compare
