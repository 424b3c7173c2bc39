// SPDX-License-Identifier: GPL-3.0-or-later
// When a season asks for a look at the bow: rules of docs/measures/season.md#triggers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "compare/season.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr std::size_t kEarlier = 3;
constexpr std::size_t kEarlierForSpread = 4;
constexpr double kLouder_db = 2.0;
constexpr double kMoreHum = 1.5;
constexpr double kTwoDeviations = 2.0;
constexpr double kToneStep = 0.03;
constexpr double kToneNear = 0.08;
constexpr double kSpreadTimes = 2.0;
constexpr double kSpeedStep = 0.01;
constexpr double kCheckToneStep_db = 2.0;
constexpr const char* kInspect = " Stop and inspect before more shots: bolts, limbs (cracks), string and brace height, rubber, loose parts.";

using Points = std::vector<SeasonPoint>;
using Read = std::optional<double> (*)(const SeasonPoint&);

std::optional<double> exposure_of(const SeasonPoint& point) { return point.means[0]; }
std::optional<double> hum_of(const SeasonPoint& point) { return point.means[1]; }
std::optional<double> speed_of(const SeasonPoint& point) { return point.means[4]; }
std::optional<double> spread_of_point(const SeasonPoint& point) { return point.exposure_deviation_db; }

/// The values of the sessions before `now` that have one, the last `most` of them (0: all).
std::vector<double> before(const Points& points, std::size_t now, Read read, std::size_t most) {
  std::vector<double> values;
  for (std::size_t k = now; k-- > 0 && (most == 0 || values.size() < most);) {
    if (const auto value = read(points[k])) values.push_back(*value);
  }
  return values;
}

/// Value less the mean of the last three, when it also lies above all three; nullopt: fewer than three, or not.
std::optional<double> rise_over_three(const Points& points, std::size_t now, Read read) {
  const auto value = read(points[now]);
  const auto three = before(points, now, read, kEarlier);
  if (!value || three.size() < kEarlier || *value <= *std::ranges::max_element(three)) return std::nullopt;
  return *value - *stats::mean(three);
}

/// Do this session and the one before both lie more than two standard deviations above all earlier ones?
bool two_high(const Points& points, std::size_t now, Read read) {
  if (now == 0) return false;
  const auto earlier = before(points, now - 1, read, 0);
  if (earlier.size() < kEarlierForSpread) return false;
  const double limit = *stats::mean(earlier) + kTwoDeviations * *stats::standard_deviation(earlier);
  return read(points[now]).value_or(limit) > limit && read(points[now - 1]).value_or(limit) > limit;
}

/// Did the check tone step up or down against the sessions before? nullopt: not known.
std::optional<double> chain_step(const Points& points, std::size_t now) {
  const auto tone = [](const SeasonPoint& point) { return point.evening.check_tone_db; };
  const auto earlier = before(points, now, tone, kEarlier);
  if (!tone(points[now]) || earlier.empty()) return std::nullopt;
  return *tone(points[now]) - *stats::mean(earlier);
}

void judge_levels(const Points& points, std::size_t now, bool chain_moved, std::vector<Trigger>& triggers) {
  const int session = points[now].evening.session;
  // With the chain off by as much, a level says nothing of the bow.
  const char* what_to_do = chain_moved ? " The check tone moved as well: look at the chain first." : kInspect;
  if (const auto rise = rise_over_three(points, now, exposure_of); rise && *rise >= kLouder_db) {
    triggers.push_back({TriggerKind::louder, session, !chain_moved,
                        fmt::format("Session {}: {:+.1f} dB of sound exposure over the last three.{}", session, *rise, what_to_do)});
  } else if (two_high(points, now, exposure_of)) {
    triggers.push_back({TriggerKind::two_high, session, !chain_moved,
                        fmt::format("Session {}: the second one in a row that is louder than the earlier ones' spread.{}", session,
                                    what_to_do)});
  }
  if (const auto rise = rise_over_three(points, now, hum_of); rise && *rise >= kMoreHum) {
    triggers.push_back({TriggerKind::more_hum, session, !chain_moved,
                        fmt::format("Session {}: {:+.1f} points of hum over the last three.{}", session, *rise, what_to_do)});
  }
}

void judge_tones(const Points& points, std::size_t now, std::vector<Trigger>& triggers) {
  std::vector<double> known;
  for (std::size_t k = now - kEarlier; k < now; ++k) {
    known.insert(known.end(), points[k].tones_hz.begin(), points[k].tones_hz.end());
  }
  if (known.empty()) return;  // nothing rang, or nothing was kept of it
  const int session = points[now].evening.session;
  for (const double hz : points[now].tones_hz) {
    const double nearest = *std::ranges::min_element(known, {}, [hz](double other) { return std::abs(hz / other - 1.0); });
    const double off = hz / nearest - 1.0;
    if (std::abs(off) <= kToneStep) continue;
    if (std::abs(off) <= kToneNear) {
      triggers.push_back({TriggerKind::tone_moved, session, true,
                          fmt::format("Session {}: the tone at {} moved by {:+.1f} %.{}", session, frequency_text(nearest),
                                      100.0 * off, kInspect)});
    } else {
      triggers.push_back({TriggerKind::new_tone, session, true,
                          fmt::format("Session {}: a new tone at {}.{}", session, frequency_text(hz), kInspect)});
    }
  }
}

void judge_rest(const Points& points, std::size_t now, std::vector<Trigger>& triggers) {
  const SeasonPoint& point = points[now];
  const int session = point.evening.session;
  const bool buzzed = std::any_of(points.begin() + static_cast<std::ptrdiff_t>(now - kEarlier),
                                  points.begin() + static_cast<std::ptrdiff_t>(now), [](const auto& p) { return p.buzzes; });
  if (point.buzzes && !buzzed) {
    triggers.push_back({TriggerKind::buzz, session, true,
                        fmt::format("Session {}: a buzz of one rate in most shots, as a loose part makes it.{}", session, kInspect)});
  }
  const auto spreads = before(points, now, spread_of_point, kEarlier);
  if (point.exposure_deviation_db && spreads.size() == kEarlier && *stats::mean(spreads) > 0.0 &&
      *point.exposure_deviation_db >= kSpreadTimes * *stats::mean(spreads)) {
    triggers.push_back({TriggerKind::spread, session, true,
                        fmt::format("Session {}: the shots scatter by {:.1f} dB, twice as much as before ({:.1f} dB).{}", session,
                                    *point.exposure_deviation_db, *stats::mean(spreads), kInspect)});
  }
  const auto speeds = before(points, now, speed_of, kEarlier);
  if (const auto speed = speed_of(point); speed && speeds.size() == kEarlier) {
    const double off = *speed / *stats::mean(speeds) - 1.0;
    if (std::abs(off) > kSpeedStep) {
      triggers.push_back({TriggerKind::speed, session, true,
                          fmt::format("Session {}: arrow speed {:+.1f} % against the last three (string creep, brace height, another "
                                      "arrow or distance?).{}",
                                      session, 100.0 * off, kInspect)});
    }
  }
}

}  // namespace

std::vector<Trigger> triggers_of(const std::vector<SeasonPoint>& points) {
  std::vector<Trigger> triggers;
  for (std::size_t now = 0; now < points.size(); ++now) {
    const auto step = chain_step(points, now);
    const bool chain_moved = step && std::abs(*step) >= kCheckToneStep_db;
    if (chain_moved) {
      const int session = points[now].evening.session;
      triggers.push_back({TriggerKind::chain, session, false,
                          fmt::format("Session {}: the check tone reads {:+.1f} dB against before: the chain drifted (microphone, gain, "
                                      "place), not the bow. Its levels can't be held against the others'.",
                                      session, *step)});
    }
    if (now < kEarlier) continue;
    judge_levels(points, now, chain_moved, triggers);
    judge_tones(points, now, triggers);
    judge_rest(points, now, triggers);
  }
  return triggers;
}

}  // namespace ringfall::compare
