// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comparison.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <map>
#include <string_view>

#include "base/failure.h"
#include "base/nearest.h"
#include "compare/confounders.h"
#include "stats/multiple.h"

namespace ringfall::compare {
namespace {

constexpr double kSignificant = 0.05;

/// Holm over the rows that have a difference. A difference that stands out by itself only, among so many, may be chance.
void share_error(const std::vector<NumberDifference*>& rows) {
  std::vector<NumberDifference*> judged;
  std::ranges::copy_if(rows, std::back_inserter(judged), [](const auto* row) { return row->difference.has_value(); });
  const auto leads = static_cast<double>(std::ranges::count_if(judged, [](const auto* row) { return is_lead(*row->number); }));
  const double rest = static_cast<double>(judged.size()) - leads;
  std::vector<double> p;
  std::vector<double> weights;
  for (const auto* row : judged) {
    p.push_back(row->difference->p);
    // The numbers that speak for a family carry half of its error.
    weights.push_back(leads == 0.0 || rest == 0.0 ? 1.0 : is_lead(*row->number) ? 0.5 / leads : 0.5 / rest);
  }
  const auto adjusted = stats::holm_adjusted(p, weights);
  for (std::size_t k = 0; k < judged.size(); ++k) {
    judged[k]->adjusted_p = adjusted[k];
    if (claims_difference(judged[k]->verdict) && adjusted[k] >= kSignificant) judged[k]->verdict = Verdict::hint;
  }
}

/// The main number is one question, asked of every set-up; the others share the error within their family. Checks of the chain are no
/// question about the set-ups.
void adjust(std::vector<SetUpComparison>& all, const std::string& main) {
  std::map<Family, std::vector<NumberDifference*>> families;
  std::vector<NumberDifference*> asked;
  for (SetUpComparison& against : all) {
    for (NumberDifference& row : against.numbers) {
      const Family family = family_of(*row.number);
      if (row.number->id == main) {
        asked.push_back(&row);
      } else if (family != Family::check) {
        families[family].push_back(&row);
      } else if (row.difference) {
        row.adjusted_p = row.difference->p;
      }
    }
  }
  share_error(asked);
  for (const auto& [family, rows] : families) share_error(rows);
}

/// All numbers of one pair of set-ups, the main one first. Empty: stopped.
std::vector<NumberDifference> numbers_of(const Session& session, const std::string& against, const std::string& setup, const Measure& main,
                                         const std::vector<Measure>& measures, const std::function<bool()>& go_on) {
  std::vector<NumberDifference> numbers;
  numbers.push_back(difference_of(session, against, setup, main));
  for (const Measure& measure : measures) {
    if (measure.id == main.id) continue;
    if (go_on && !go_on()) return {};
    auto row = difference_of(session, against, setup, measure);
    if (row.baseline.n + row.setup.n + row.baseline.bounded + row.setup.bounded > 0) numbers.push_back(std::move(row));
  }
  return numbers;
}

bool hangs_on_chain(const std::string& code) {
  constexpr std::array<std::string_view, 7> kCodes = {"chain_changed",  "sample_rate_changed", "format_changed", "floor_changed",
                                                      "floor_differs", "distance_changed",    "finding_on_one_setup"};
  return std::ranges::find(kCodes, code) != kCodes.end();
}

/// The doubts, and the next step that they ask for rather than more blocks.
void add_doubts(Answer& answer, const std::vector<Finding>& findings) {
  for (const Finding& finding : findings) {
    if (finding.severity == Severity::note) continue;
    if (std::ranges::find(answer.doubts, finding.code) == answer.doubts.end()) answer.doubts.push_back(finding.code);
  }
  if (answer.loudness.why_not.starts_with("no session")) {
    answer.next = NextStep::one_session;
  } else if (std::ranges::any_of(answer.doubts, hangs_on_chain)) {
    answer.next = NextStep::same_chain;
  } else if (std::ranges::find(answer.doubts, "order_confounded") != answer.doubts.end()) {
    answer.next = NextStep::once_more;
  }
}

void add_answers(Comparison& comparison, const Session& session, const Measure& main, const std::vector<Measure>& measures) {
  comparison.controls = equal_mass_controls(session, comparison.baseline);
  const auto controlled = [&](const std::string& setup) {
    return std::ranges::find(comparison.controls, setup, &Control::setup) != comparison.controls.end();
  };
  for (const SetUpComparison& against : comparison.against) {
    Answer answer = answer_of(against.setup, comparison.baseline, against.numbers, main.id);
    add_doubts(answer, comparison.findings);
    const bool heavier = std::ranges::any_of(comparison.findings, [&](const Finding& finding) {
      return finding.code == "added_mass_differs" && finding.sentence.starts_with("'" + against.setup + "'");
    });
    if (answer.next == NextStep::nothing && heavier && !controlled(against.setup)) answer.next = NextStep::bring_control;
    comparison.answers.push_back(std::move(answer));
  }
  std::vector<SetUpComparison> fair;
  for (const Control& control : comparison.controls) {
    SetUpComparison pair;
    pair.setup = control.setup;
    pair.numbers = numbers_of(session, control.control, control.setup, main, measures, {});
    fair.push_back(std::move(pair));
  }
  adjust(fair, main.id);
  for (std::size_t k = 0; k < fair.size(); ++k) {
    Answer answer = answer_of(fair[k].setup, comparison.controls[k].control, fair[k].numbers, main.id);
    answer.against_control = true;
    add_doubts(answer, comparison.findings);
    comparison.answers.push_back(std::move(answer));
  }
  for (const Measure& measure : measures) {
    if (is_lead(measure) || measure.id == main.id) comparison.rankings.push_back(ranking_of(session, comparison.setups, measure));
  }
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
  for (const auto& against : comparison.against) {
    for (const NumberDifference& row : against.numbers) {
      if (!row.evenings || !row.evenings->disagree || (row.number->id != main.id && !is_lead(*row.number))) continue;
      std::string each;
      for (const double difference : row.evenings->differences) {
        each += fmt::format("{}{:+.{}f}", each.empty() ? "" : ", ", difference, row.number->decimals + 1);
      }
      findings.push_back({"evenings_disagree", Severity::caution, {},
                          fmt::format("{} of '{}' against '{}': the evenings disagree by more than their blocks explain ({} {}, p {:.3f}). The "
                                      "interval counts evenings then, not blocks; find out what else differed.",
                                      row.number->label, against.setup, comparison.baseline, each, row.number->unit, row.evenings->p)});
    }
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
    against.numbers = numbers_of(session, comparison.baseline, against.setup, main, measures, go_on);
    if (against.numbers.empty()) return {};
    against.order = shooting_order(session, comparison.baseline, against.setup);
    if (comparison.drift) against.drift_in_difference = comparison.drift->per_shot.slope * against.order.shots_apart;
    const auto* own_tones = tones_of(tones, against.setup);
    if (baseline_tones && own_tones) against.tones = tone_changes(session, *baseline_tones, *own_tones);
    comparison.against.push_back(std::move(against));
  }
  adjust(comparison.against, main.id);
  std::vector<Measure> main_first = measures;
  std::ranges::stable_partition(main_first, [&main](const Measure& measure) { return measure.id == main.id; });
  comparison.outlying = outlying_shots(session, main_first);
  comparison.findings = confounders(session, comparison.baseline);
  for (Finding& finding : doubts_about(comparison, main)) comparison.findings.push_back(std::move(finding));
  add_answers(comparison, session, main, measures);
  return comparison;
}

}  // namespace ringfall::compare
