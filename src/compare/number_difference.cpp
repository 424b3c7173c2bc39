// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/number_difference.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "compare/values.h"
#include "stats/distributions.h"
#include "stats/permutation.h"
#include "stats/power.h"
#include "stats/summary.h"
#include "stats/sums.h"

namespace ringfall::compare {
namespace {

/// Was anything of these two set-ups left out by its owner?
bool has_drops(const Session& session, const std::string& baseline, const std::string& setup) {
  return std::ranges::any_of(session.blocks, [&](const auto& block) {
    return (block.setup == baseline || block.setup == setup) && (!block.dropped.empty() || !block.dropped_shots.empty());
  });
}

double weight_of(const stats::Stratum& stratum) {
  const auto n1 = static_cast<double>(stratum.first.size());
  const auto n2 = static_cast<double>(stratum.second.size());
  return n1 * n2 / (n1 + n2);
}

double sum_of_weights(const std::vector<stats::Stratum>& strata) {
  double sum = 0.0;
  for (const auto& stratum : strata) sum += weight_of(stratum);
  return sum;
}

double weighted_mean(const std::vector<stats::Stratum>& strata, std::vector<double> stats::Stratum::*units) {
  double mean = 0.0;
  for (const auto& stratum : strata) mean += weight_of(stratum) * stats::plain_mean(stratum.*units);
  return mean / sum_of_weights(strata);
}

/// Values only. `own`: whose blocks and block means.
Spread spread_of(const std::vector<stats::SessionBlocks>& sessions, const std::vector<stats::Stratum>& strata,
                 stats::Blocks stats::SessionBlocks::*blocks, std::vector<double> stats::Stratum::*units) {
  Spread spread;
  double squares = 0.0;
  for (const auto& session : sessions) {
    std::vector<double> shots;
    for (const auto& block : session.*blocks) {
      shots.insert(shots.end(), block.begin(), block.end());
      spread.blocks += block.empty() ? 0 : 1;
    }
    spread.n += shots.size();
    squares += stats::squares_about_mean(shots);
  }
  if (!sessions.empty()) spread.mean = weighted_mean(strata, units);
  if (spread.n > sessions.size()) spread.deviation = std::sqrt(squares / static_cast<double>(spread.n - sessions.size()));
  return spread;
}

std::size_t value_count(const std::vector<stats::SessionBlocks>& sessions) {
  std::size_t count = 0;
  for (const auto& session : sessions) {
    for (const auto* blocks : {&session.first, &session.second}) {
      for (const auto& block : *blocks) count += block.size();
    }
  }
  return count;
}

/// A cell is a set-up within a session: there alone blocks differ by their luck only.
using Cells = std::map<std::pair<int, std::string>, stats::Blocks>;

Cells cells_of(const Session& session, const ShotReader& read) {
  Cells cells;
  for (const SessionBlock* block : session.kept()) {
    std::vector<double> values;
    for (const SessionShot& entry : block->shots) {
      if (const auto value = read(*block, entry)) values.push_back(*value);
    }
    if (!values.empty()) cells[{block->session, block->setup}].push_back(std::move(values));
  }
  return cells;
}

stats::BlockSpread spread_of_cells(const Cells& cells) {
  std::vector<stats::Blocks> all;
  for (const auto& [key, blocks] : cells) all.push_back(blocks);
  return stats::spread_of_blocks(all);
}

SpreadFrom source_of(const Cells& cells, const std::string& baseline, const std::string& setup) {
  std::set<int> evenings;
  for (const auto& [key, blocks] : cells) {
    if (cells.contains({key.first, baseline}) && cells.contains({key.first, setup})) evenings.insert(key.first);
  }
  SpreadFrom from = SpreadFrom::these_blocks;
  for (const auto& [key, blocks] : cells) {
    if (blocks.size() < 2) continue;
    if (!evenings.contains(key.first)) return SpreadFrom::logbook;
    if (key.second != baseline && key.second != setup) from = SpreadFrom::these_sessions;
  }
  return from;
}

/// `spread`'s mean is the sum of weighted means of block means.
void add_interval(Spread& spread, const NumberDifference& row, const std::vector<stats::Stratum>& strata,
                  std::vector<double> stats::Stratum::*units) {
  const double sum = sum_of_weights(strata);
  double variance = 0.0;
  for (const auto& stratum : strata) {
    const double share = weight_of(stratum) / sum;
    variance += share * share / static_cast<double>((stratum.*units).size());
  }
  const double reach = stats::student_t_quantile(0.5 + 0.5 * stats::kConfidence, row.difference->df) * *row.unit_deviation *
                       std::sqrt(variance);
  const auto mean = spread.mean_between.value_or(stats::Interval{*spread.mean, *spread.mean});
  spread.interval = {mean.low - reach, mean.high + reach};
}

std::size_t bounded_shots(const Session& session, const std::string& setup, const Measure& measure, const std::set<int>& evenings) {
  std::size_t count = 0;
  for (const SessionBlock* block : session.kept()) {
    if (block->setup != setup || !evenings.contains(block->session)) continue;
    count += static_cast<std::size_t>(std::ranges::count_if(block->shots, [&](const auto& entry) { return measure.at_most(entry).has_value(); }));
  }
  return count;
}

/// The sessions in which both set-ups have a value or a bound.
std::set<int> evenings_of(const Session& session, const std::string& baseline, const std::string& setup, const Measure& measure) {
  std::map<int, std::pair<bool, bool>> seen;
  for (const SessionBlock* block : session.kept()) {
    const bool any = std::ranges::any_of(block->shots, [&](const auto& entry) { return measure.of(entry) || measure.at_most(entry); });
    if (!any) continue;
    if (block->setup == baseline) seen[block->session].first = true;
    if (block->setup == setup) seen[block->session].second = true;
  }
  std::set<int> evenings;
  for (const auto& [evening, both] : seen) {
    if (both.first && both.second) evenings.insert(evening);
  }
  return evenings;
}

/// Bounded shots of one set-up at their least or at their most, those of the other the opposite.
ShotReader at_end(const Measure& measure, const std::string& least_of) {
  return [&measure, least_of](const SessionBlock& block, const SessionShot& entry) -> std::optional<double> {
    if (const auto value = measure.of(entry)) return value;
    const auto bound = measure.at_most(entry);
    if (!bound) return std::nullopt;
    return block.setup == least_of ? 0.0 : *bound;
  };
}

/// Both ends of what may hide as one difference.
stats::Difference over_both(const stats::Difference& low, const stats::Difference& high) {
  stats::Difference both = low;
  both.difference = 0.5 * (low.difference + high.difference);
  both.df = std::min(low.df, high.df);
  both.standard_error = std::max(low.standard_error, high.standard_error);
  both.interval = {std::min(low.interval.low, high.interval.low), std::max(low.interval.high, high.interval.high)};
  both.p = low.difference * high.difference > 0.0 ? std::max(low.p, high.p) : 1.0;
  both.t = both.difference / both.standard_error;
  return both;
}

/// What the two set-ups show, the shots of `read`.
struct Shown {
  std::vector<stats::SessionBlocks> sessions;
  std::vector<stats::Stratum> strata;
  std::optional<stats::BlockedDifference> found;
};

Shown shown_by(const Session& session, const std::string& baseline, const std::string& setup, const ShotReader& read,
               const stats::BlockSpread& spread, Take take = Take::kept) {
  Shown shown;
  shown.sessions = stats::with_both(session_values(session, baseline, setup, read, take));
  shown.strata = stats::units_within(shown.sessions, stats::Unit::block);
  shown.found = stats::difference_over_blocks(shown.sessions, spread);
  return shown;
}

void judge(NumberDifference& row, const std::vector<stats::Stratum>& strata, double nearest) {
  row.unit_deviation = row.difference->standard_error * std::sqrt(sum_of_weights(strata));
  add_interval(row.baseline, row, strata, &stats::Stratum::first);
  add_interval(row.setup, row, strata, &stats::Stratum::second);
  const double noticeable = row.number->noticeable;
  row.verdict = verdict_of(nearest, row.difference->interval, noticeable, row.rests.ground);
  if (row.verdict != Verdict::not_settled || *row.unit_deviation <= 0.0) return;
  row.units_to_settle = stats::units_to_settle(row.difference->difference, *row.unit_deviation, noticeable,
                                               std::min(row.baseline.blocks, row.setup.blocks) + 1, row.sessions);
}

/// Means and difference when shots without a value have a bound.
void add_bounds(NumberDifference& row, const Session& session, const std::string& baseline, const std::string& setup,
                const Measure& measure, const stats::BlockSpread& spread) {
  const Shown low = shown_by(session, baseline, setup, at_end(measure, setup), spread);
  const Shown high = shown_by(session, baseline, setup, at_end(measure, baseline), spread);
  if (low.strata.empty()) return;
  const auto of = [&](Spread& side, std::vector<double> stats::Stratum::*units, const Shown& least, const Shown& most) {
    side.mean_between = {weighted_mean(least.strata, units), weighted_mean(most.strata, units)};
    side.mean = 0.5 * (side.mean_between->low + side.mean_between->high);
  };
  of(row.baseline, &stats::Stratum::first, high, low);
  of(row.setup, &stats::Stratum::second, low, high);
  row.difference.reset();
  if (!low.found || !high.found) return;
  row.difference = over_both(low.found->difference, high.found->difference);
  const auto [near, far] = std::minmax({low.found->difference.difference, high.found->difference.difference},
                                       [](double a, double b) { return std::abs(a) < std::abs(b); });
  row.evenings = high.found->evenings;
  judge(row, low.strata, near * far > 0.0 ? near : 0.0);
  if (!row.difference->interval.contains(0.0)) row.at_least = near;
}

}  // namespace

NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup, const Measure& measure) {
  const auto read = [&measure](const SessionBlock&, const SessionShot& entry) { return measure.of(entry); };
  NumberDifference row;
  row.number = std::make_shared<const Measure>(measure);
  const auto evenings = evenings_of(session, baseline, setup, measure);
  row.sessions = evenings.size();
  Cells cells = cells_of(session, read);
  auto spread = spread_of_cells(cells);
  const std::size_t bounded_baseline = bounded_shots(session, baseline, measure, evenings);
  const std::size_t bounded_setup = bounded_shots(session, setup, measure, evenings);
  const bool bounded = bounded_baseline + bounded_setup > 0;
  if (bounded && spread.shot_df < 1.0) {  // nothing but bounds: how they scatter is all that is known
    cells = cells_of(session, at_end(measure, ""));
    spread = spread_of_cells(cells);
  }
  const Shown shown = shown_by(session, baseline, setup, read, spread);
  row.baseline = spread_of(shown.sessions, shown.strata, &stats::SessionBlocks::first, &stats::Stratum::first);
  row.setup = spread_of(shown.sessions, shown.strata, &stats::SessionBlocks::second, &stats::Stratum::second);
  if (has_drops(session, baseline, setup)) {
    const Shown all = shown_by(session, baseline, setup, read, spread, Take::with_drops);
    row.drops_add_nothing = value_count(all.sessions) == value_count(shown.sessions);
    if (!row.drops_add_nothing && all.found) row.with_drops = all.found->difference;
  }
  if (shown.strata.size() == 1) {
    const auto shots = stats::units_within(shown.sessions, stats::unit_of(shown.sessions));
    row.robust = stats::hodges_lehmann_shift(shots[0].first, shots[0].second);
  }
  if (const auto test = stats::permute_within_strata(shown.strata)) row.permutation_p = test->p;
  row.smallest_permutation_p = stats::smallest_permutation_p(shown.strata);

  const auto& counted = bounded ? shown_by(session, baseline, setup, at_end(measure, setup), spread) : shown;
  if (bounded) {
    row.baseline.bounded = bounded_baseline;
    row.setup.bounded = bounded_setup;
    const auto blocks = [&](std::vector<double> stats::Stratum::*units) {
      std::size_t count = 0;
      for (const auto& stratum : counted.strata) count += (stratum.*units).size();
      return count;
    };
    row.baseline.blocks = blocks(&stats::Stratum::first);
    row.setup.blocks = blocks(&stats::Stratum::second);
  }
  if (!counted.found) return row;
  row.rests.from = counted.found->assumed ? SpreadFrom::assumed : source_of(cells, baseline, setup);
  row.rests.ground = counted.found->assumed                                ? Ground::assumed_wander
                     : row.baseline.blocks >= 2 && row.setup.blocks >= 2 ? Ground::repeated_blocks
                                                                          : Ground::known_wander;
  row.rests.blocks_df = spread.block_df;
  if (spread.block_df >= 1.0) row.rests.wander = std::sqrt(spread.wander_square());
  if (spread.shot_df >= 1.0) row.rests.shot_deviation = std::sqrt(spread.shot_square);
  row.rests.own_spreads = counted.found->own_spreads;
  row.rests.at_floor = counted.found->at_floor;
  if (bounded) {
    add_bounds(row, session, baseline, setup, measure, spread);
    return row;
  }
  row.difference = shown.found->difference;
  row.evenings = shown.found->evenings;
  judge(row, shown.strata, row.difference->difference);
  return row;
}

std::optional<UnitsNeeded> units_for_difference(const NumberDifference& row, double wanted) {
  if (!row.unit_deviation || *row.unit_deviation <= 0.0) return std::nullopt;
  const auto each = stats::units_to_settle(wanted, *row.unit_deviation, 0.0, 2, row.sessions);
  if (!each) return std::nullopt;
  const auto more = [&](std::size_t blocks) { return *each > blocks ? *each - blocks : 0; };
  return UnitsNeeded{*each, more(row.baseline.blocks), more(row.setup.blocks)};
}

}  // namespace ringfall::compare
