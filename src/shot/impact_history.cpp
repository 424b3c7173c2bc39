// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "shot/impact_search.h"

namespace ringfall::shot {
namespace {

constexpr std::size_t kRemembered = 16;
constexpr double kAlike_db = 5.0;        // own shots; a neighbour's are fainter
constexpr double kSpread = 0.05;         // lags of one archer repeat within this share
constexpr double kSpread_s = 0.006;
constexpr double kClearRise_db = 7.0;    // without other shots' help
constexpr double kShotLikePenalty_db = 10.0;
constexpr double kSupportWorth_db = 12.0;
constexpr std::size_t kFew = 3;
constexpr double kMostAgree = 0.6;

/// Loud and sudden is what an impact is.
double worth_db(const ImpactCandidate& candidate) {
  return candidate.level_db + 0.5 * std::min(candidate.rise_db, 20.0) - (candidate.shot_like ? kShotLikePenalty_db : 0.0);
}

/// Clear enough to stand alone, and no other shot.
bool is_clear(const ImpactCandidate& candidate) { return candidate.rise_db >= kClearRise_db && !candidate.shot_like; }

}  // namespace

bool same_lag(double a_s, double b_s) { return std::abs(a_s - b_s) < std::max(kSpread * std::max(a_s, b_s), kSpread_s); }

std::optional<std::size_t> ImpactHistory::choose(const std::vector<ImpactCandidate>& candidates, double edge_db) {
  std::vector<const Past*> alike;
  for (const Past& past : past_) {
    if (std::abs(past.edge_db - edge_db) < kAlike_db) alike.push_back(&past);
  }
  const auto support = [&](double lag_s) {
    const auto agree = std::ranges::count_if(alike, [&](const Past* past) {
      return std::ranges::any_of(past->lags_s, [&](double other_s) { return same_lag(lag_s, other_s); });
    });
    return alike.empty() ? 0.0 : static_cast<double>(agree) / static_cast<double>(alike.size());
  };
  double best_agreed = 0.0;
  for (const Past* past : alike) {
    for (const double lag_s : past->lags_s) best_agreed = std::max(best_agreed, support(lag_s));
  }
  const bool agreed = alike.size() >= kFew && best_agreed >= kMostAgree;

  std::optional<std::size_t> best;
  double best_db = 0.0;
  for (std::size_t k = 0; k < candidates.size(); ++k) {
    const double help = support(candidates[k].lag_s);
    if (agreed && help < 0.7 * best_agreed) continue;
    if (!agreed && candidates[k].rise_db < kClearRise_db && help < 0.5) continue;
    const double here_db = worth_db(candidates[k]) + kSupportWorth_db * help;
    if (best && here_db <= best_db) continue;
    best = k;
    best_db = here_db;
  }
  // Nothing where the others had it, for the second time, and both times something clear at one and the same other lag: the
  // archer has walked. What was heard from the other place says nothing any more.
  if (!best && agreed && alike.back()->lost) {
    for (std::size_t k = 0; k < candidates.size(); ++k) {
      const bool again = is_clear(candidates[k]) && std::ranges::any_of(alike.back()->clear_s, [&](double other_s) {
        return same_lag(candidates[k].lag_s, other_s);
      });
      if (!again || (best && worth_db(candidates[k]) <= best_db)) continue;
      best = k;
      best_db = worth_db(candidates[k]);
    }
    if (best) {
      const Past last = *alike.back();
      std::erase_if(past_, [&](const Past& past) { return std::abs(past.edge_db - edge_db) < kAlike_db; });
      past_.push_back(last);
    }
  }
  Past now{{}, {}, edge_db, agreed && !best};
  for (const auto& candidate : candidates) {
    now.lags_s.push_back(candidate.lag_s);
    if (is_clear(candidate)) now.clear_s.push_back(candidate.lag_s);
  }
  past_.push_back(std::move(now));
  if (past_.size() > kRemembered) past_.pop_front();
  return best;
}

}  // namespace ringfall::shot
