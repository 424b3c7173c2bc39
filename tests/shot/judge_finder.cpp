// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/judge_finder.h"

#include <algorithm>
#include <cmath>

namespace ringfall::shot {
namespace {

constexpr double kSame_s = 0.005;

void judge_impact(const TrueShot& truth, const Event& event, double rate_hz, Agreement& agreement) {
  if (truth.impact_s) ++agreement.impacts;
  if (!event.impact_sample) {
    agreement.impacts_missed += truth.impact_s ? 1 : 0;
    return;
  }
  const double error_s = truth.impact_s ? std::abs(static_cast<double>(*event.impact_sample) / rate_hz - *truth.impact_s) : 1.0;
  if (error_s > kSame_s) {
    ++agreement.impacts_wrong;
  } else {
    agreement.worst_impact_s = std::max(agreement.worst_impact_s, error_s);
  }
}

}  // namespace

std::vector<FoundEvent> find_all(std::span<const float> samples, double sample_rate_hz, const FindSettings& settings,
                                 std::size_t block) {
  std::vector<FoundEvent> all;
  ShotFinder finder(sample_rate_hz, settings, [&](FoundEvent&& found) { all.push_back(std::move(found)); });
  while (!samples.empty()) {
    const auto part = samples.first(std::min(block, samples.size()));
    finder.push(part);
    samples = samples.subspan(part.size());
  }
  finder.finish();
  return all;
}

double onset_s(const Event& event, double sample_rate_hz) {
  return (static_cast<double>(event.onset_sample) + event.onset_fraction) / sample_rate_hz;
}

Agreement judge(const InventedEvening& evening) {
  const double rate_hz = evening.sample_rate_hz;
  std::vector<Event> events;
  for (auto& found : find_all(evening.samples, rate_hz, {}, 65536)) events.push_back(found.event);
  const auto selection = select_shots(events, rate_hz, {});
  for (const std::size_t k : selection.doubtful_impacts) events[k].impact_sample.reset();
  Agreement agreement;
  double sum_s = 0.0;
  int found = 0;
  for (const TrueShot& truth : evening.truth) {
    if (!truth.own) continue;
    ++agreement.shots;
    const auto is_it = [&](std::size_t k) { return std::abs(onset_s(events[k], rate_hz) - truth.onset_s) < kSame_s; };
    const auto place = std::ranges::find_if(selection.shots, is_it);
    if (place == selection.shots.end()) {
      ++agreement.missed;
      continue;
    }
    ++found;
    const double error_s = onset_s(events[*place], rate_hz) - truth.onset_s;
    sum_s += error_s;
    agreement.worst_onset_s = std::max(agreement.worst_onset_s, std::abs(error_s));
    judge_impact(truth, events[*place], rate_hz, agreement);
  }
  agreement.mean_onset_s = found > 0 ? sum_s / found : 0.0;
  agreement.extra = static_cast<int>(selection.shots.size()) - found;
  for (const std::size_t k : selection.shots) {
    const bool own = std::ranges::any_of(evening.truth, [&](const TrueShot& truth) {
      return truth.own && std::abs(onset_s(events[k], rate_hz) - truth.onset_s) < kSame_s;
    });
    if (!own && !std::ranges::binary_search(selection.in_doubt, k)) ++agreement.extra_unnamed;
  }
  return agreement;
}

}  // namespace ringfall::shot
