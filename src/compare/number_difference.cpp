// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/number_difference.h"

#include <algorithm>
#include <cmath>

#include "compare/values.h"
#include "stats/distributions.h"
#include "stats/permutation.h"
#include "stats/power.h"
#include "stats/stratified.h"
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

/// `own`: whose blocks and units.
Spread spread_of(const std::vector<stats::SessionBlocks>& sessions, const std::vector<stats::Stratum>& strata,
                 stats::Blocks stats::SessionBlocks::*blocks, std::vector<double> stats::Stratum::*units) {
  Spread spread;
  double mean = 0.0;
  double squares = 0.0;
  for (std::size_t k = 0; k < sessions.size(); ++k) {
    std::vector<double> shots;
    for (const auto& block : sessions[k].*blocks) {
      shots.insert(shots.end(), block.begin(), block.end());
      spread.blocks += block.empty() ? 0 : 1;
    }
    spread.n += shots.size();
    spread.units += (strata[k].*units).size();
    squares += stats::squares_about_mean(shots);
    mean += weight_of(strata[k]) * stats::plain_mean(strata[k].*units);
  }
  if (!sessions.empty()) spread.mean = mean / sum_of_weights(strata);
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

/// Standard deviation of one unit. The groups of one session have spreads of their own when shots are the unit (Welch): with as many
/// shots each the root of their mean square is what counts. Else the common one, error^2 = deviation^2 / sum n1 n2 / (n1 + n2).
double deviation_of(const stats::Difference& difference, const std::vector<stats::Stratum>& strata, stats::Unit unit) {
  if (unit == stats::Unit::shot && strata.size() == 1) {
    return std::hypot(*stats::standard_deviation(strata[0].first), *stats::standard_deviation(strata[0].second)) / std::sqrt(2.0);
  }
  return difference.standard_error * std::sqrt(sum_of_weights(strata));
}

/// `spread`'s mean is the sum of weighted means of `units`.
void add_interval(Spread& spread, const NumberDifference& row, const std::vector<stats::Stratum>& strata,
                  std::vector<double> stats::Stratum::*units) {
  if (row.unit == stats::Unit::shot && strata.size() == 1) {
    if (const auto own = stats::mean_with_interval(strata[0].*units)) spread.interval = own->interval;
    return;
  }
  const double sum = sum_of_weights(strata);
  double variance = 0.0;
  for (const auto& stratum : strata) {
    const double share = weight_of(stratum) / sum;
    variance += share * share / static_cast<double>((stratum.*units).size());
  }
  const double reach = stats::student_t_quantile(0.5 + 0.5 * stats::kConfidence, row.difference->df) * *row.unit_deviation *
                       std::sqrt(variance);
  spread.interval = {*spread.mean - reach, *spread.mean + reach};
}

}  // namespace

NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup, const Measure& measure) {
  const auto read = [&measure](const SessionBlock&, const SessionShot& entry) { return measure.of(entry); };
  const auto sessions = stats::with_both(session_values(session, baseline, setup, read));
  NumberDifference row;
  row.number = std::make_shared<const Measure>(measure);
  row.unit = stats::unit_of(sessions);
  row.sessions = sessions.size();
  const auto strata = stats::units_within(sessions, row.unit);
  row.baseline = spread_of(sessions, strata, &stats::SessionBlocks::first, &stats::Stratum::first);
  row.setup = spread_of(sessions, strata, &stats::SessionBlocks::second, &stats::Stratum::second);
  row.difference = stats::stratified_difference(sessions, row.unit);
  if (has_drops(session, baseline, setup)) {
    const auto all = stats::with_both(session_values(session, baseline, setup, read, Take::with_drops));
    row.drops_add_nothing = value_count(all) == value_count(sessions);
    if (!row.drops_add_nothing) row.with_drops = stats::stratified_difference(all, stats::unit_of(all));
  }
  if (strata.size() == 1) row.robust = stats::hodges_lehmann_shift(strata[0].first, strata[0].second);
  if (const auto test = stats::permute_within_strata(strata)) row.permutation_p = test->p;
  row.smallest_permutation_p = stats::smallest_permutation_p(strata);
  if (!row.difference) return row;
  row.unit_deviation = deviation_of(*row.difference, strata, row.unit);
  add_interval(row.baseline, row, strata, &stats::Stratum::first);
  add_interval(row.setup, row, strata, &stats::Stratum::second);
  const double found = row.difference->difference;
  row.verdict = verdict_of(found, row.difference->interval, measure.noticeable, row.unit);
  if (row.verdict == Verdict::not_settled && *row.unit_deviation > 0.0) {
    // That nothing is to be heard can be settled by blocks only.
    const double noticeable = row.unit == stats::Unit::block ? measure.noticeable : 0.0;
    row.units_to_settle = stats::units_to_settle(found, *row.unit_deviation, noticeable,
                                                 std::min(row.baseline.units, row.setup.units) + 1, row.sessions);
  }
  return row;
}

std::optional<UnitsNeeded> units_for_difference(const NumberDifference& row, double wanted) {
  if (!row.unit_deviation || *row.unit_deviation <= 0.0) return std::nullopt;
  const auto each = stats::units_to_settle(wanted, *row.unit_deviation, 0.0, 2, row.sessions);
  if (!each) return std::nullopt;
  const auto more = [&](std::size_t units) { return *each > units ? *each - units : 0; };
  return UnitsNeeded{*each, more(row.baseline.units), more(row.setup.units)};
}

}  // namespace ringfall::compare
