// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "base/text.h"
#include "compare/air_doubts.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

/// docs/measures/hum_ping.md: the average bow's tones 12 dB apart read 6.69 and 4.89 (ping 5.03 and 3.24).
constexpr double kScorePerChain_db = 0.15;
constexpr double kChainStep_db = 2.0;

using Points = std::vector<SeasonPoint>;

bool agree(const std::string& one, const std::string& other) { return one.empty() || other.empty() || one == other; }

std::optional<double> mean_tone(const Points& points, const std::vector<std::size_t>& of) {
  std::vector<double> tones;
  for (const std::size_t k : of) {
    if (points[k].evening.check_tone_db) tones.push_back(*points[k].evening.check_tone_db);
  }
  return tones.size() == of.size() ? stats::mean(tones) : std::nullopt;
}

/// A value of another day as it would have come out with the check tone at `tone_db`. A score has no value below 0.
double on_todays_chain(const SeasonPoint& point, const Measure& measure, std::size_t index, double tone_db) {
  const double moved = *point.means[index] + per_chain_db(measure) * (tone_db - *point.evening.check_tone_db);
  return measure.unit == "dB" ? moved : std::max(0.0, moved);
}

}  // namespace

bool same_scale(const Evening& one, const Evening& other) {
  if (one.calibrated != other.calibrated) return false;
  return one.calibrated ||
         (agree(one.microphone, other.microphone) && agree(one.device, other.device) && agree(one.chain, other.chain));
}

double per_chain_db(const Measure& measure) {
  if (measure.id == "exposure_db") return 1.0;
  return measure.id == "hum" || measure.id == "ping" ? kScorePerChain_db : 0.0;
}

std::optional<Held> hold_against(const Points& points, std::size_t now, std::size_t end, std::size_t measure, std::size_t fewest,
                                 std::size_t most) {
  const auto measures = season_measures();
  const Measure& number = measures[measure];
  const bool scaled = per_chain_db(number) > 0.0;
  const SeasonPoint& own = points[now];
  if (!own.means[measure]) return std::nullopt;
  std::vector<std::size_t> held;
  for (std::size_t k = end; k-- > 0 && (most == 0 || held.size() < most);) {
    if (points[k].means[measure] && (!scaled || same_scale(points[k].evening, own.evening))) held.push_back(k);
  }
  if (held.size() < fewest) return std::nullopt;
  Held result;
  result.now = *own.means[measure];
  if (scaled && own.evening.check_tone_db) {
    std::vector<std::size_t> logged;
    std::ranges::copy_if(held, std::back_inserter(logged), [&](std::size_t k) { return points[k].evening.check_tone_db.has_value(); });
    if (most == 0 && logged.size() >= fewest) held = std::move(logged);
    if (const auto before_db = mean_tone(points, held)) result.chain_step_db = *own.evening.check_tone_db - *before_db;
  }
  for (const std::size_t k : held) {
    result.earlier.push_back(result.chain_step_db ? on_todays_chain(points[k], number, measure, *own.evening.check_tone_db)
                                                  : *points[k].means[measure]);
  }
  return result;
}

SeasonTrend trend_of(const Points& points, std::size_t measure) {
  SeasonTrend trend;
  trend.measure = season_measures()[measure];
  const bool scaled = per_chain_db(trend.measure) > 0.0;
  std::vector<std::size_t> held;
  for (std::size_t k = 0; k < points.size(); ++k) {
    if (points[k].means[measure] && (!scaled || same_scale(points[k].evening, points.back().evening))) held.push_back(k);
  }
  trend.sessions = held.size();
  trend.less_check_tone = scaled && held.size() > 1 && mean_tone(points, held).has_value();
  std::vector<double> days;
  std::vector<double> values;
  for (const std::size_t k : held) {
    days.push_back(points[k].evening.day);
    values.push_back(trend.less_check_tone
                         ? on_todays_chain(points[k], trend.measure, measure, *points[held.back()].evening.check_tone_db)
                         : *points[k].means[measure]);
  }
  if (!days.empty()) trend.days = days.back() - days.front();
  trend.per_day = stats::theil_sen(days, values);
  trend.rise = stats::mann_kendall(days, values);
  return trend;
}

std::string scale_note_of(const Points& points) {
  std::vector<int> held;
  std::vector<int> uncalibrated;
  std::vector<int> calibrated;
  std::vector<int> other_chain;
  const Evening& last = points.back().evening;
  for (const SeasonPoint& point : points) {
    auto& list = same_scale(point.evening, last)               ? held
                 : point.evening.calibrated == last.calibrated ? other_chain
                 : point.evening.calibrated                    ? calibrated
                                                               : uncalibrated;
    list.push_back(point.evening.session);
  }
  std::string why;
  const auto add = [&](const std::vector<int>& sessions, const char* what) {
    if (!sessions.empty()) why += fmt::format("{}{} ({})", why.empty() ? "" : "; ", sessions_text(sessions), what);
  };
  add(uncalibrated, "not calibrated");
  add(calibrated, "calibrated, unlike the newest");
  add(other_chain, "another microphone, recorder or gain by the words on the chain");
  if (why.empty()) return {};
  return fmt::format("Exposure, hum and ping are held against sessions of one scale only; their trend is that of {}. Of another scale: {}.",
                     sessions_text(held), why);
}

std::string chain_note_of(const Points& points) {
  std::vector<double> tones;
  std::size_t sessions = 0;
  for (const SeasonPoint& point : points) {
    if (!same_scale(point.evening, points.back().evening)) continue;
    ++sessions;
    if (point.evening.check_tone_db) tones.push_back(*point.evening.check_tone_db);
  }
  if (tones.size() < 2) {
    return "No check tone was logged in two sessions or more of one scale: a change of level may be the microphone's. Play the same tone "
           "from the same mark each time and log its level.";
  }
  const double range = *std::ranges::max_element(tones) - *std::ranges::min_element(tones);
  const char* verdict = range < kChainStep_db      ? "the chain held still"
                        : tones.size() == sessions ? "the chain drifted, and levels are judged less the check tone's steps"
                                                   : "the chain drifted; levels of sessions without a check tone can't be held against others";
  return fmt::format("The check tone of {} lies within {:.1f} dB: {}.", counted(tones.size(), "session"), range, verdict);
}

std::string air_note_of(const Points& points) {
  std::vector<AirOfSession> sessions;
  for (const SeasonPoint& point : points) sessions.push_back({point.evening.session, point.evening.temperature_c, false});  // no speed is followed
  std::string note;
  for (const Finding& doubt : air_doubts(sessions)) note += (note.empty() ? "" : " ") + doubt.sentence;
  return note;
}

}  // namespace ringfall::compare
