// SPDX-License-Identifier: GPL-3.0-or-later
// When a season asks for a look at the bow: rules of docs/measures/season.md#triggers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "compare/season_scale.h"
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

using Season = std::vector<SeasonPoint>;
using Read = std::optional<double> (*)(const SeasonPoint&);

// Places in season_measures().
constexpr std::size_t kExposurePlace = 0;
constexpr std::size_t kHumPlace = 1;

std::optional<double> speed_of(const SeasonPoint& point) { return point.means[4]; }
std::optional<double> spread_of_point(const SeasonPoint& point) { return point.exposure_deviation_db; }

/// The last three values of the sessions before `now` that have one.
std::vector<double> last_three(const Season& points, std::size_t now, Read read) {
  std::vector<double> values;
  for (std::size_t k = now; k-- > 0 && values.size() < kEarlier;) {
    if (const auto value = read(points[k])) values.push_back(*value);
  }
  return values;
}

/// What a level did against before, and whether the chain was asked.
struct Rise {
  double by = 0.0;
  std::optional<double> chain_step_db;  ///< taken off
};

/// Value less the mean of the last three, when it also lies above all three; nullopt: fewer than three, or not.
std::optional<Rise> rise_over_three(const Season& points, std::size_t now, std::size_t measure) {
  const auto held = hold_against(points, now, now, measure, kEarlier, kEarlier);
  if (!held || held->now <= *std::ranges::max_element(held->earlier)) return std::nullopt;
  return Rise{held->now - *stats::mean(held->earlier), held->chain_step_db};
}

/// By how much a session lies more than two standard deviations above all those before `end`; nullopt: it does not, or they are few.
std::optional<Rise> far_above(const Season& points, std::size_t which, std::size_t end) {
  const auto held = hold_against(points, which, end, kExposurePlace, kEarlierForSpread, 0);
  if (!held) return std::nullopt;
  const double over = held->now - *stats::mean(held->earlier);
  if (over <= kTwoDeviations * *stats::standard_deviation(held->earlier)) return std::nullopt;
  return Rise{over, held->chain_step_db};
}

/// Did the check tone step up or down against the sessions before of this scale? nullopt: not known.
std::optional<double> chain_step(const Season& points, std::size_t now) {
  const Evening& own = points[now].evening;
  std::vector<double> earlier;
  for (std::size_t k = now; k-- > 0 && earlier.size() < kEarlier;) {
    const Evening& other = points[k].evening;
    if (other.check_tone_db && same_scale(other, own)) earlier.push_back(*other.check_tone_db);
  }
  if (!own.check_tone_db || earlier.empty()) return std::nullopt;
  return *own.check_tone_db - *stats::mean(earlier);
}

bool moved(std::optional<double> step_db) { return step_db && std::abs(*step_db) >= kCheckToneStep_db; }

/// A rise in words. With the check tone taken off it is the bow's; without, and the chain known to be off, the chain comes first.
void add_rise(TriggerKind kind, int session, const Rise& rise, bool chain_moved, const std::string& what, std::vector<Trigger>& triggers) {
  const bool chain_first = chain_moved && !rise.chain_step_db;
  const std::string taken_off = rise.chain_step_db ? fmt::format(" (the check tone's {:+.1f} dB taken off)", *rise.chain_step_db) : "";
  triggers.push_back({kind, session, !chain_first,
                      fmt::format("Session {}: {}{}.{}", session, what, taken_off,
                                  chain_first ? " The check tone moved as well: look at the chain first." : kInspect)});
}

void judge_levels(const Season& points, std::size_t now, bool chain_moved, std::vector<Trigger>& triggers) {
  const int session = points[now].evening.session;
  if (const auto rise = rise_over_three(points, now, kExposurePlace); rise && rise->by >= kLouder_db) {
    add_rise(TriggerKind::louder, session, *rise, chain_moved, fmt::format("{:+.1f} dB of sound exposure over the last three", rise->by),
             triggers);
  } else if (const auto high = far_above(points, now, now - 1); high && far_above(points, now - 1, now - 1)) {
    add_rise(TriggerKind::two_high, session, *high, chain_moved || moved(chain_step(points, now - 1)),
             "the second one in a row that is louder than the earlier ones' spread", triggers);
  }
  if (const auto rise = rise_over_three(points, now, kHumPlace); rise && rise->by >= kMoreHum) {
    add_rise(TriggerKind::more_hum, session, *rise, chain_moved, fmt::format("{:+.1f} points of hum over the last three", rise->by),
             triggers);
  }
}

/// Tones of the last three sessions that could be listened to for this kind; nullopt: there were fewer.
std::optional<std::vector<double>> known_tones(const Season& points, std::size_t now, bool ping) {
  std::vector<double> known;
  std::size_t sessions = 0;
  for (std::size_t k = now; k-- > 0 && sessions < kEarlier;) {
    if (!(ping ? points[k].listened_for_ping : points[k].listened_for_hum)) continue;
    ++sessions;
    known.insert(known.end(), points[k].tones_hz.begin(), points[k].tones_hz.end());
  }
  return sessions == kEarlier ? std::optional(known) : std::nullopt;
}

void judge_tones(const Season& points, std::size_t now, std::vector<Trigger>& triggers) {
  const int session = points[now].evening.session;
  for (const double hz : points[now].tones_hz) {
    const auto known = known_tones(points, now, is_ping(hz));
    if (!known) continue;
    const auto nearest = std::ranges::min_element(*known, {}, [hz](double other) { return std::abs(hz / other - 1.0); });
    const bool near = nearest != known->end() && std::abs(hz / *nearest - 1.0) <= kToneNear;
    if (!near) {
      triggers.push_back({TriggerKind::new_tone, session, true,
                          fmt::format("Session {}: a new tone at {}.{}", session, frequency_text(hz), kInspect)});
    } else if (const double off = hz / *nearest - 1.0; std::abs(off) > kToneStep) {
      triggers.push_back({TriggerKind::tone_moved, session, true,
                          fmt::format("Session {}: the tone at {} moved by {:+.1f} %.{}", session, frequency_text(*nearest),
                                      100.0 * off, kInspect)});
    }
  }
}

void judge_rest(const Season& points, std::size_t now, std::vector<Trigger>& triggers) {
  const SeasonPoint& point = points[now];
  const int session = point.evening.session;
  const bool buzzed = std::any_of(points.begin() + static_cast<std::ptrdiff_t>(now - kEarlier),
                                  points.begin() + static_cast<std::ptrdiff_t>(now), [](const auto& p) { return p.buzzes; });
  if (point.buzzes && !buzzed) {
    triggers.push_back({TriggerKind::buzz, session, true,
                        fmt::format("Session {}: a buzz of one rate in most shots, as a loose part makes it.{}", session, kInspect)});
  }
  const auto spreads = last_three(points, now, spread_of_point);
  if (point.exposure_deviation_db && spreads.size() == kEarlier && *stats::mean(spreads) > 0.0 &&
      *point.exposure_deviation_db >= kSpreadTimes * *stats::mean(spreads)) {
    triggers.push_back({TriggerKind::spread, session, true,
                        fmt::format("Session {}: the shots scatter by {:.1f} dB, twice as much as before ({:.1f} dB).{}", session,
                                    *point.exposure_deviation_db, *stats::mean(spreads), kInspect)});
  }
  const auto speeds = last_three(points, now, speed_of);
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
    const bool chain_moved = moved(step);
    if (chain_moved) {
      const int session = points[now].evening.session;
      triggers.push_back({TriggerKind::chain, session, false,
                          fmt::format("Session {}: the check tone reads {:+.1f} dB against before: the chain drifted (microphone, gain, "
                                      "place), not the bow. Its levels are held against others less that step, where these logged "
                                      "the check tone too.",
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
