// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "shot/find.h"

namespace ringfall::shot {
namespace {

using Events = std::span<const Event>;
using Indices = std::vector<std::size_t>;

constexpr double kLikelyShot = 0.30;
constexpr double kOwnSpread_db = 5.0;      // own shots lie this close below the loud ones: SD 1.5 dB and set-ups apart
constexpr double kNeighbourLowest_db = 9.0;// this far below, no gap is needed
constexpr double kGap_db = 2.0;            // own shots and a neighbour's leave a gap between them
constexpr double kSameLag = 0.03;           // a shot whose arrow strikes when the others' do is the archer's own
constexpr double kShyest_db = 30.0;        // below this nothing is a neighbour's shot worth a word

double quantile(std::vector<double> values, double share) {
  std::ranges::sort(values);
  const double place = share * static_cast<double>(values.size() - 1);
  const auto low = static_cast<std::size_t>(place);
  const std::size_t high = std::min(low + 1, values.size() - 1);
  return values[low] + (place - static_cast<double>(low)) * (values[high] - values[low]);
}

/// The N most shot-like, in time order: likeness first, then how loud the edge is.
Indices most_likely(Events events, std::size_t wanted) {
  Indices order(events.size());
  std::iota(order.begin(), order.end(), 0U);
  std::vector<double> levels;
  for (const Event& event : events) levels.push_back(event.edge_db);
  const double loud_db = levels.empty() ? 0.0 : quantile(levels, 0.9);
  const auto worth = [&](std::size_t k) {
    // 12 dB below the loud ones weighs as much as no likeness at all.
    return events[k].likeness + std::clamp((events[k].edge_db - loud_db) / 12.0, -2.0, 0.25);
  };
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return worth(a) > worth(b); });
  order.resize(std::min(wanted, order.size()));
  std::ranges::sort(order);
  return order;
}

/// The level below which events are taken for a neighbour's: in the widest gap under the loud ones, or a fixed step down.
double own_limit_db(const std::vector<double>& levels_db) {
  const double loud_db = quantile(levels_db, 0.8);
  std::vector<double> sorted = levels_db;
  std::ranges::sort(sorted);
  double limit_db = loud_db - kNeighbourLowest_db;
  double widest = kGap_db;
  for (std::size_t k = 1; k < sorted.size(); ++k) {
    const double gap = sorted[k] - sorted[k - 1];
    const bool in_reach = sorted[k] <= loud_db && sorted[k - 1] < loud_db - kOwnSpread_db &&
                          sorted[k] > loud_db - kNeighbourLowest_db;
    if (!in_reach || gap <= widest) continue;
    widest = gap;
    limit_db = 0.5 * (sorted[k] + sorted[k - 1]);
  }
  return limit_db;
}

std::optional<double> lag_of(const Event& event) {
  if (!event.impact_sample) return std::nullopt;
  return static_cast<double>(*event.impact_sample - event.onset_sample) - event.onset_fraction;
}

/// Median impact lag of the events at or above the limit, in samples; nullopt with fewer than three.
std::optional<double> usual_lag(Events events, const Indices& likely, double limit_db) {
  std::vector<double> lags;
  for (const std::size_t k : likely) {
    const auto lag = lag_of(events[k]);
    if (events[k].edge_db >= limit_db && lag) lags.push_back(*lag);
  }
  if (lags.size() < 3) return std::nullopt;
  return quantile(lags, 0.5);
}

void report(Events events, const Indices& left_out, double rate_hz, double loud_db, Selection& selection) {
  if (left_out.empty()) return;
  std::string when;
  for (std::size_t k = 0; k < left_out.size() && k < 5; ++k) {
    when += fmt::format("{}{:.2f}", k == 0 ? "" : ", ",
                        static_cast<double>(events[left_out[k]].onset_sample) / rate_hz);
  }
  if (left_out.size() > 5) when += ", ...";
  std::vector<double> below;
  for (const std::size_t k : left_out) below.push_back(loud_db - events[k].edge_db);
  selection.findings.push_back(
      {"neighbour_shot", Severity::note, {},
       fmt::format("{} loud event{} (at {} s), some {:.0f} dB fainter than the shots, left out as a neighbour's or "
                   "something else. With --expect N the N most shot-like are kept.",
                   left_out.size(), left_out.size() == 1 ? "" : "s", when, quantile(below, 0.5))});
}

}  // namespace

Selection select_shots(Events events, double sample_rate_hz, const FindSettings& settings) {
  Selection selection;
  if (settings.expect) {
    selection.shots = most_likely(events, static_cast<std::size_t>(*settings.expect));
    if (selection.shots.size() < static_cast<std::size_t>(*settings.expect)) {
      selection.findings.push_back(
          {"fewer_than_expected", Severity::caution, {},
           fmt::format("{} shots were expected and {} found.", *settings.expect, selection.shots.size())});
    }
    return selection;
  }
  Indices likely;
  std::vector<double> levels_db;
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (events[k].likeness < kLikelyShot) continue;
    likely.push_back(k);
    levels_db.push_back(events[k].edge_db);
  }
  if (likely.empty()) return selection;
  const double limit_db = own_limit_db(levels_db);
  const double loud_db = quantile(levels_db, 0.8);
  const auto lag = usual_lag(events, likely, limit_db);
  Indices left_out;
  for (const std::size_t k : likely) {
    const auto own_lag = lag_of(events[k]);
    const bool strikes_alike = lag && own_lag && std::abs(*own_lag / *lag - 1.0) < kSameLag &&
                               events[k].edge_db > loud_db - kNeighbourLowest_db;
    if (events[k].edge_db >= limit_db || strikes_alike) {
      selection.shots.push_back(k);
    } else if (events[k].edge_db > loud_db - kShyest_db) {
      left_out.push_back(k);
    }
  }
  report(events, left_out, sample_rate_hz, loud_db, selection);
  return selection;
}

}  // namespace ringfall::shot
