// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/stratified.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "stats/distributions.h"
#include "stats/sums.h"

namespace ringfall::stats {
namespace {

std::vector<double> units_of_blocks(const Blocks& blocks, Unit unit) {
  if (unit == Unit::block) return block_means(blocks);
  std::vector<double> shots;
  for (const auto& block : blocks) shots.insert(shots.end(), block.begin(), block.end());
  return shots;
}

bool has_shots(const Blocks& blocks) {
  return std::ranges::any_of(blocks, [](const auto& block) { return !block.empty(); });
}

}  // namespace

std::vector<SessionBlocks> with_both(std::span<const SessionBlocks> sessions) {
  std::vector<SessionBlocks> both;
  for (const SessionBlocks& session : sessions) {
    if (has_shots(session.first) && has_shots(session.second)) both.push_back(session);
  }
  return both;
}

Unit unit_of(std::span<const SessionBlocks> sessions) {
  Blocks first;
  Blocks second;
  for (const SessionBlocks& session : with_both(sessions)) {
    first.insert(first.end(), session.first.begin(), session.first.end());
    second.insert(second.end(), session.second.begin(), session.second.end());
  }
  return unit_of(first, second);
}

std::vector<Stratum> units_within(std::span<const SessionBlocks> sessions, Unit unit) {
  std::vector<Stratum> strata;
  for (const SessionBlocks& session : with_both(sessions)) {
    strata.push_back({units_of_blocks(session.first, unit), units_of_blocks(session.second, unit)});
  }
  return strata;
}

std::optional<Difference> stratified_difference(std::span<const SessionBlocks> sessions, Unit unit, double confidence) {
  check_share(confidence);
  const auto both = with_both(sessions);
  if (both.empty()) return std::nullopt;
  if (both.size() == 1) return blocked_difference(both[0].first, both[0].second, unit, confidence);

  const auto strata = units_within(both, unit);
  CompensatedSum within;       // squares about each cell's mean
  CompensatedSum weights;
  CompensatedSum weighted;
  double units = 0.0;
  for (const Stratum& stratum : strata) {
    check_finite(stratum.first);
    check_finite(stratum.second);
    const auto n1 = static_cast<double>(stratum.first.size());
    const auto n2 = static_cast<double>(stratum.second.size());
    const double weight = n1 * n2 / (n1 + n2);
    units += n1 + n2;
    within.add(squares_about_mean(stratum.first));
    within.add(squares_about_mean(stratum.second));
    weights.add(weight);
    weighted.add(weight * (plain_mean(stratum.second) - plain_mean(stratum.first)));
  }
  const double df = units - static_cast<double>(strata.size()) - 1.0;
  if (df < 1.0) return std::nullopt;
  const double difference = weighted.value() / weights.value();
  // The sessions' own differences about the common one are part of the rest.
  for (const Stratum& stratum : strata) {
    const auto n1 = static_cast<double>(stratum.first.size());
    const auto n2 = static_cast<double>(stratum.second.size());
    const double off = plain_mean(stratum.second) - plain_mean(stratum.first) - difference;
    within.add(n1 * n2 / (n1 + n2) * off * off);
  }
  const double error = std::sqrt(within.value() / df / weights.value());
  if (error == 0.0) return std::nullopt;
  Difference result;
  result.difference = difference;
  result.standard_error = error;
  result.df = df;
  result.t = difference / error;
  result.p = student_t_two_sided_p(result.t, df);
  const double reach = student_t_quantile(0.5 + 0.5 * confidence, df) * error;
  result.interval = {difference - reach, difference + reach};
  return result;
}

}  // namespace ringfall::stats
