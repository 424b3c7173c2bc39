// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "compare/measure.h"
#include "compare/session.h"
#include "stats/trend_within.h"

namespace ringfall::compare {

/// Can a steady drift over the session (arms, strings, weather) pass for a difference?
enum class OrderJudgement {
  balanced,    ///< A B B A, or set-ups changed shot by shot: hardly
  leaning,     ///< A B A B: in part
  confounded,  ///< A A B B: it can't be told from the set-up
};

struct ShootingOrder {
  std::string blocks;        ///< "A B B A"; A the baseline, B the set-up, other set-ups "."; sessions parted by "/"
  /// How far the set-up's mean place lies after the baseline's, in parts of the session: what share of a steady drift from
  /// first to last shot is in the difference. 12 + 12 shots: AABB 0.52, A6 B6 A6 B6 0.26, ABBA 0, shot by shot 0.04.
  double share = 0.0;
  double shots_apart = 0.0;  ///< the same in shots
  OrderJudgement judgement = OrderJudgement::balanced;
};
inline constexpr double kBalancedShare = 0.10;
inline constexpr double kConfoundedShare = 0.40;

/// Over the sessions that have both set-ups, weighted as the difference weights them (n1 n2 / (n1 + n2) shots).
ShootingOrder shooting_order(const Session& session, const std::string& baseline, const std::string& setup);

/// Change of a number along the shooting order that the set-ups do not explain.
struct DriftSeen {
  stats::TrendWithin per_shot;
  double over_session = 0.0;  ///< slope times the shots of the longest session less one
  std::optional<stats::Interval> over_session_interval;  ///< 95 %; too narrow when blocks wander
};

/// Median of the slopes between shots of one set-up in one session, all set-ups together (trend_within), against the place in the
/// session's order. nullopt: no two shots of one set-up. Shots of one block share its luck: the interval is too narrow when blocks
/// wander. Tests: compare.ShootingOrder.*
std::optional<DriftSeen> drift_of(const Session& session, const Measure& measure);

}  // namespace ringfall::compare
