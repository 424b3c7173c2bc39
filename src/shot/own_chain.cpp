// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/own_chain.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/check.h"
#include "shot/impact_search.h"

namespace ringfall::shot {
namespace {

constexpr double kMostStep = 3.0;
constexpr double kUsualStep = 0.5;        // the mean of d^2 / (2 spread^2)
constexpr double kSetUpsApart_db = 12.0;  // more is hardly one archer's doing
constexpr double kFartherApart = 0.5;     // a dB
constexpr double kOtherLag = 0.5;
constexpr double kHasty_s = 2.5, kHasty = 2.0;  // no archer shoots again within that
constexpr double kQuick_s = 4.0, kQuick = 0.5;
constexpr double kAsLoud = 8.0;
constexpr double kPlainSpreads = 2.5;
constexpr double kPlainOther = 1.8;
constexpr double kFarFrom_db = 12.0, kFarTo_db = 18.0, kFarOther = 0.3;
constexpr double kSharesLag = 1.3, kHasOtherLag = 0.8;
constexpr double kAtTheEnds = 1.6;        // one side only tells
constexpr double kUnlikely = 2.4;         // for an event with no likeness at all
constexpr double kForeignOwn = 2.0;       // for an own event that all speaks against
constexpr std::size_t kMostLeftOut = 120;

/// What a way of picking costs.
class ChainCosts {
 public:
  ChainCosts(std::span<const Event> events, std::span<const ChainHint> hints, double spread_db, double rate_hz)
      : events_(events), hints_(hints), spread_db_(spread_db), rate_hz_(rate_hz) {
    for (const Event& event : events) {
      level_db_.push_back(event_level_db(event));
      lag_s_.push_back(impact_lag_samples(event) / rate_hz);
    }
  }

  double own(std::size_t k) const {
    return kUnlikely * (1.0 - events_[k].likeness) + kForeignOwn * (1.0 - hints_[k].foreign);
  }

  double in_a_row(std::size_t i, std::size_t j) const {
    const double apart_db = std::abs(level_db_[j] - level_db_[i]);
    double cost = std::clamp(0.5 * std::pow(apart_db / spread_db_, 2) - kUsualStep, 0.0, kMostStep);
    cost += kFartherApart * std::max(apart_db - kSetUpsApart_db, 0.0);
    if (lag_s_[i] > 0.0 && lag_s_[j] > 0.0 && !same_lag(lag_s_[i], lag_s_[j])) cost += kOtherLag;
    const double gap_s = static_cast<double>(events_[j].onset_sample - events_[i].onset_sample) / rate_hz_;
    return cost + (gap_s < kHasty_s ? kHasty : gap_s < kQuick_s ? kQuick : 0.0);
  }

  double between(std::size_t i, std::size_t j, std::size_t k) const {
    return other(k, std::min(level_db_[i], level_db_[j]) - level_db_[k]) * by_lag(k, i, j);
  }
  double beside(std::size_t own, std::size_t k) const {
    return kAtTheEnds * other(k, level_db_[own] - level_db_[k]) * by_lag(k, own, own);
  }

 private:
  double other(std::size_t k, double under_db) const {
    const double spreads = under_db / spread_db_;
    double cost = kPlainOther;
    if (spreads <= 0.0) {
      cost = kAsLoud;
    } else if (spreads < kPlainSpreads) {
      cost = kAsLoud - (kAsLoud - kPlainOther) * spreads / kPlainSpreads;
    } else if (under_db > kFarFrom_db) {
      const double share = std::min((under_db - kFarFrom_db) / (kFarTo_db - kFarFrom_db), 1.0);
      cost = kPlainOther - (kPlainOther - kFarOther) * share;
    }
    return cost * hints_[k].foreign;
  }

  double by_lag(std::size_t k, std::size_t i, std::size_t j) const {
    if (!(lag_s_[k] > 0.0)) return 1.0;
    const bool known = lag_s_[i] > 0.0 || lag_s_[j] > 0.0;
    if (!known) return 1.0;
    const auto shares = [&](double lag_s) { return lag_s > 0.0 && same_lag(lag_s, lag_s_[k]); };
    return shares(lag_s_[i]) || shares(lag_s_[j]) ? kSharesLag : kHasOtherLag;
  }

  std::span<const Event> events_;
  std::span<const ChainHint> hints_;
  double spread_db_;
  double rate_hz_;
  std::vector<double> level_db_;
  std::vector<double> lag_s_;
};

}  // namespace

double event_level_db(const Event& event) { return 0.5 * (event.edge_db + event.body_db); }

double impact_lag_samples(const Event& event) {
  if (!event.impact_sample) return 0.0;
  return static_cast<double>(*event.impact_sample - event.onset_sample) - event.onset_fraction;
}

std::vector<std::size_t> own_chain(std::span<const Event> events, std::span<const ChainHint> hints, double spread_db,
                                   double sample_rate_hz) {
  check(hints.size() == events.size() && spread_db > 0.0, "one hint an event");
  const ChainCosts costs(events, hints, spread_db, sample_rate_hz);
  constexpr std::size_t kNone = std::numeric_limits<std::size_t>::max();
  constexpr double kNever = std::numeric_limits<double>::infinity();
  const std::size_t count = events.size();
  std::vector<double> cheapest(count, kNever);  // of all ways that end with own event j
  std::vector<std::size_t> before(count, kNone);
  double whole = kNever;
  std::size_t last = kNone;
  for (std::size_t j = 0; j < count; ++j) {
    if (j <= kMostLeftOut) {
      cheapest[j] = costs.own(j);
      for (std::size_t k = 0; k < j; ++k) cheapest[j] += costs.beside(j, k);
    }
    for (std::size_t i = j; i-- > j - std::min(j, kMostLeftOut);) {
      double cost = cheapest[i] + costs.in_a_row(i, j) + costs.own(j);
      for (std::size_t k = i + 1; k < j && cost < cheapest[j]; ++k) cost += costs.between(i, j, k);
      if (cost >= cheapest[j]) continue;
      cheapest[j] = cost;
      before[j] = i;
    }
    if (count - j > kMostLeftOut + 1) continue;
    double cost = cheapest[j];
    for (std::size_t k = j + 1; k < count; ++k) cost += costs.beside(j, k);
    if (cost >= whole) continue;
    whole = cost;
    last = j;
  }
  std::vector<std::size_t> own;
  for (; last != kNone; last = before[last]) own.push_back(last);
  std::ranges::reverse(own);
  return own;
}

double worth_in_chain(std::span<const Event> events, std::span<const ChainHint> hints, double spread_db, double sample_rate_hz,
                      std::span<const std::size_t> own, std::size_t place) {
  const ChainCosts costs(events, hints, spread_db, sample_rate_hz);
  const std::size_t k = own[place];
  const bool first = place == 0;
  const bool last = place + 1 == own.size();
  if (first && last) return std::numeric_limits<double>::infinity();
  if (first) return costs.beside(own[1], k) - costs.in_a_row(k, own[1]) - costs.own(k);
  if (last) return costs.beside(own[place - 1], k) - costs.in_a_row(own[place - 1], k) - costs.own(k);
  const std::size_t i = own[place - 1];
  const std::size_t j = own[place + 1];
  return costs.in_a_row(i, j) + costs.between(i, j, k) - costs.in_a_row(i, k) - costs.in_a_row(k, j) - costs.own(k);
}

}  // namespace ringfall::shot
