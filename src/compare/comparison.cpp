// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comparison.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "base/nearest.h"
#include "compare/confounders.h"
#include "stats/multiple.h"

namespace ringfall::compare {
namespace {

constexpr double kSignificant = 0.05;

/// Holm over the rows that have a difference. A difference that stands out by itself only, among so many, may be chance.
void share_error(const std::vector<NumberDifference*>& rows) {
  std::vector<double> p;
  std::vector<NumberDifference*> judged;
  for (NumberDifference* row : rows) {
    if (!row->difference) continue;
    p.push_back(row->difference->p);
    judged.push_back(row);
  }
  const auto adjusted = stats::holm_adjusted(p);
  for (std::size_t k = 0; k < judged.size(); ++k) {
    judged[k]->adjusted_p = adjusted[k];
    if (claims_difference(judged[k]->verdict) && adjusted[k] >= kSignificant) judged[k]->verdict = Verdict::hint;
  }
}

/// The main number is one question, asked of every set-up; the side numbers share the error that they may make together.
void adjust(std::vector<SetUpComparison>& all) {
  std::vector<NumberDifference*> main;
  std::vector<NumberDifference*> side;
  for (SetUpComparison& against : all) {
    for (std::size_t k = 0; k < against.numbers.size(); ++k) (k == 0 ? main : side).push_back(&against.numbers[k]);
  }
  share_error(main);
  share_error(side);
}

/// What the main number itself casts doubt on: drift, and shots that lie far out.
std::vector<Finding> doubts_about(const Comparison& comparison, const Measure& main) {
  std::vector<Finding> findings;
  if (comparison.drift && comparison.drift->over_session_interval && !comparison.drift->over_session_interval->contains(0.0)) {
    std::string parts;
    for (const auto& against : comparison.against) {
      if (!against.drift_in_difference || against.order.judgement == OrderJudgement::balanced) continue;
      parts += fmt::format("{}{:+.{}f} {} of the difference of '{}'", parts.empty() ? "" : ", ", *against.drift_in_difference,
                           main.decimals + 1, main.unit, against.setup);
    }
    if (!parts.empty()) parts = fmt::format(" If it did so steadily, {} is drift.", parts);
    const auto& interval = *comparison.drift->over_session_interval;
    findings.push_back({"drift", Severity::caution, {},
                        fmt::format("The {0} seems to have drifted by {1:+.{4}f} {5} over the session, whatever the set-up (95 % interval "
                                    "{2:+.{4}f} to {3:+.{4}f}; less sure than that where blocks wander).{6}",
                                    main.label, comparison.drift->over_session, interval.low, interval.high, main.decimals + 1,
                                    main.unit, parts)});
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
                          const std::vector<SetUpTones>& tones, const std::function<bool()>& go_on) {
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
    against.numbers.push_back(difference_of(session, comparison.baseline, against.setup, main));
    for (const Measure& measure : measures) {
      if (measure.id == main.id) continue;
      if (go_on && !go_on()) return {};
      auto difference = difference_of(session, comparison.baseline, against.setup, measure);
      if (difference.baseline.n > 0 || difference.setup.n > 0) against.numbers.push_back(std::move(difference));
    }
    against.order = shooting_order(session, comparison.baseline, against.setup);
    if (comparison.drift) against.drift_in_difference = comparison.drift->per_shot.slope * against.order.shots_apart;
    const auto* own_tones = tones_of(tones, against.setup);
    if (baseline_tones && own_tones) against.tones = tone_changes(session, *baseline_tones, *own_tones);
    comparison.against.push_back(std::move(against));
  }
  adjust(comparison.against);
  std::vector<Measure> main_first = measures;
  std::ranges::stable_partition(main_first, [&main](const Measure& measure) { return measure.id == main.id; });
  comparison.outlying = outlying_shots(session, main_first);
  comparison.findings = confounders(session, comparison.baseline);
  for (Finding& finding : doubts_about(comparison, main)) comparison.findings.push_back(std::move(finding));
  return comparison;
}

}  // namespace ringfall::compare
