// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/failure.h"
#include "base/nearest.h"
#include "compare/confounders.h"
#include "compare/values.h"
#include "stats/multiple.h"
#include "stats/permutation.h"
#include "stats/power.h"
#include "stats/stratified.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr double kSignificant = 0.05;

std::vector<double> flattened(const stats::Blocks& blocks) {
  std::vector<double> values;
  for (const auto& block : blocks) values.insert(values.end(), block.begin(), block.end());
  return values;
}

Spread spread_of(const stats::Blocks& blocks) {
  const auto values = flattened(blocks);
  Spread spread;
  spread.n = values.size();
  spread.mean = stats::mean(values);
  spread.deviation = stats::standard_deviation(values);
  return spread;
}

/// Was anything of these two set-ups left out by its owner?
bool has_drops(const Session& session, const std::string& baseline, const std::string& setup) {
  return std::ranges::any_of(session.blocks, [&](const auto& block) {
    return (block.setup == baseline || block.setup == setup) && (!block.dropped.empty() || !block.dropped_shots.empty());
  });
}

NumberDifference difference_of(const Session& session, const std::string& baseline, const std::string& setup,
                               const Measure& measure, stats::Unit unit) {
  const auto read = [&measure](const SessionBlock&, const SessionShot& entry) { return measure.of(entry); };
  const auto sessions = session_values(session, baseline, setup, read);
  NumberDifference result;
  result.number = std::make_shared<const Measure>(measure);
  result.baseline = spread_of(values_of(session, baseline, measure));
  result.setup = spread_of(values_of(session, setup, measure));
  result.difference = stats::stratified_difference(sessions, unit);
  if (has_drops(session, baseline, setup)) {
    result.with_drops =
        stats::stratified_difference(session_values(session, baseline, setup, read, Take::with_drops), unit);
  }
  const auto strata = stats::units_within(sessions, unit);
  if (strata.size() == 1) result.robust = stats::hodges_lehmann_shift(strata[0].first, strata[0].second);
  if (const auto test = stats::permute_within_strata(strata)) result.permutation_p = test->p;
  if (!result.difference) return result;
  const double found = result.difference->difference;
  result.verdict = verdict_of(found, result.difference->interval, measure.noticeable);
  if (result.verdict == Verdict::not_settled) {
    // The spread between units, as the difference's own standard error has it: error^2 = deviation^2 / sum n1 n2 / (n1 + n2).
    double weights = 0.0;
    for (const auto& stratum : strata) {
      const auto n1 = static_cast<double>(stratum.first.size());
      const auto n2 = static_cast<double>(stratum.second.size());
      weights += n1 * n2 / (n1 + n2);
    }
    const double deviation = result.difference->standard_error * std::sqrt(weights);
    const double half_width = half_width_to_settle(found, measure.noticeable);
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

/// What the main number itself casts doubt on: drift, and shots that lie far out.
std::vector<Finding> doubts_about(const Comparison& comparison, const Measure& main) {
  std::vector<Finding> findings;
  if (comparison.drift && comparison.drift->per_shot.interval && !comparison.drift->per_shot.interval->contains(0.0)) {
    std::string parts;
    for (const auto& against : comparison.against) {
      if (!against.drift_in_difference) continue;
      parts += fmt::format("{}{:+.{}f} {} of the difference of '{}'", parts.empty() ? "" : ", ", *against.drift_in_difference,
                           main.decimals + 1, main.unit, against.setup);
    }
    findings.push_back({"drift", Severity::caution, {},
                        fmt::format("The {} drifted by {:+.{}f} {} over the session, whatever the set-up. If the drift was steady, {} "
                                    "is drift.",
                                    main.label, comparison.drift->over_session, main.decimals + 1, main.unit, parts)});
  }
  for (const OutlyingShot& shot : comparison.outlying) {
    if (shot.measure != main.id) continue;
    findings.push_back({"outlying_shot", Severity::note, {},
                        fmt::format("{}, shot {} ('{}'): {} {:.{}f} {} lies far from the others (median {:.{}f}). It counts; leave it "
                                    "out only for what you noticed at the shot.",
                                    shot.file, shot.id > 0 ? shot.id : shot.number, shot.setup, main.label, shot.value,
                                    main.decimals, main.unit, shot.median, main.decimals)});
  }
  return findings;
}

const SetUpTones* tones_of(const std::vector<SetUpTones>& all, const std::string& setup) {
  const auto found = std::ranges::find(all, setup, &SetUpTones::setup);
  return found == all.end() ? nullptr : &*found;
}

}  // namespace

void check_question(const std::vector<std::string>& setups, const std::optional<std::string>& baseline,
                    const std::vector<Measure>& measures, const std::string& main_number) {
  wanted_measure(measures, main_number);
  if (setups.size() < 2) throw RequestFailure("a comparison needs two set-ups or more");
  if (baseline && std::ranges::find(setups, *baseline) == setups.end()) {
    throw RequestFailure(fmt::format("there is no set-up '{}'{}", *baseline, did_you_mean(*baseline, setups)));
  }
}

Comparison compare_setups(const Session& session, const std::optional<std::string>& baseline, const std::string& main_number,
                          const std::vector<SetUpTones>& tones) {
  Comparison comparison;
  comparison.setups = session.setups();
  const auto measures = measures_of(session);
  check_question(comparison.setups, baseline, measures, main_number);
  const Measure main = wanted_measure(measures, main_number);
  comparison.main_number = main.id;
  comparison.baseline = baseline.value_or(comparison.setups.front());
  const auto place = std::ranges::find(comparison.setups, comparison.baseline);
  std::rotate(comparison.setups.begin(), place, place + 1);
  comparison.drift = drift_of(session, main);
  const auto* baseline_tones = tones_of(tones, comparison.baseline);
  for (std::size_t k = 1; k < comparison.setups.size(); ++k) {
    SetUpComparison against;
    against.setup = comparison.setups[k];
    const auto read = [&main](const SessionBlock&, const SessionShot& entry) { return main.of(entry); };
    against.unit = stats::unit_of(session_values(session, comparison.baseline, against.setup, read));
    against.baseline_units = unit_count(session, comparison.baseline, against.unit);
    against.setup_units = unit_count(session, against.setup, against.unit);
    against.numbers.push_back(difference_of(session, comparison.baseline, against.setup, main, against.unit));
    for (const Measure& measure : measures) {
      if (measure.id == main.id) continue;
      auto difference = difference_of(session, comparison.baseline, against.setup, measure, against.unit);
      if (difference.baseline.n > 0 || difference.setup.n > 0) against.numbers.push_back(std::move(difference));
    }
    adjust(against.numbers);
    against.order = shooting_order(session, comparison.baseline, against.setup);
    if (comparison.drift) against.drift_in_difference = comparison.drift->per_shot.slope * against.order.shots_apart;
    const auto* own_tones = tones_of(tones, against.setup);
    if (baseline_tones && own_tones) against.tones = tone_changes(session, *baseline_tones, *own_tones, against.unit);
    comparison.against.push_back(std::move(against));
  }
  std::vector<Measure> main_first = measures;
  std::ranges::stable_partition(main_first, [&main](const Measure& measure) { return measure.id == main.id; });
  comparison.outlying = outlying_shots(session, main_first);
  comparison.findings = confounders(session, comparison.baseline);
  for (Finding& finding : doubts_about(comparison, main)) comparison.findings.push_back(std::move(finding));
  return comparison;
}

}  // namespace ringfall::compare
