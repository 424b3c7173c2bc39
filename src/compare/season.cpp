// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/season.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <utility>

#include "compare/season_scale.h"
#include "shot/buzz.h"
#include "shot/settings.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr std::array kSeasonNumbers = {"exposure_db", "hum", "ping", "late_s", "arrow_speed_m_s"};
constexpr double kOneTone = 0.03;

std::optional<int> digits(const std::string& text, std::size_t begin, std::size_t count) {
  if (text.size() < begin + count) return std::nullopt;
  int value = 0;
  const auto [end, error] = std::from_chars(text.data() + begin, text.data() + begin + count, value);
  return error == std::errc() && end == text.data() + begin + count ? std::optional(value) : std::nullopt;
}

/// Was the shot listened to for a tone of this frequency? A score says so, 0.0 as well.
bool was_listened_to(const shot::Shot& shot, bool ping) { return (ping ? shot.ping : shot.hum).has_value(); }

std::size_t listened_to(const std::vector<const SessionShot*>& shots, bool ping) {
  return static_cast<std::size_t>(std::ranges::count_if(shots, [&](const SessionShot* entry) { return was_listened_to(entry->shot, ping); }));
}

/// Tones of all shots put together where they lie within 3 % of the one before; those that half of the shots listened to have.
std::vector<double> common_tones(const std::vector<const SessionShot*>& shots) {
  std::vector<std::pair<double, std::size_t>> all;
  for (std::size_t k = 0; k < shots.size(); ++k) {
    for (const shot::Tone& tone : shots[k]->shot.tones) {
      if (was_listened_to(shots[k]->shot, is_ping(tone.frequency_hz))) all.emplace_back(tone.frequency_hz, k);
    }
  }
  std::ranges::sort(all);
  std::vector<double> common;
  for (std::size_t begin = 0; begin < all.size();) {
    std::size_t end = begin;
    std::vector<double> hz;
    std::vector<std::size_t> in;
    while (end < all.size() && all[end].first <= all[begin].first * (1.0 + kOneTone)) {
      hz.push_back(all[end].first);
      if (std::ranges::find(in, all[end].second) == in.end()) in.push_back(all[end].second);
      ++end;
    }
    const double middle_hz = *stats::median(hz);
    if (2 * in.size() >= listened_to(shots, is_ping(middle_hz))) common.push_back(middle_hz);
    begin = end;
  }
  return common;
}

bool buzzes(const std::vector<const SessionShot*>& shots) {
  std::vector<shot::BuzzEvidence> evidence;
  for (const SessionShot* entry : shots) evidence.push_back({entry->shot.buzz, entry->shot.tones});
  return shot::buzz_claimed(evidence).has_value();
}

SeasonPoint point_of(const Evening& evening, const std::vector<const SessionShot*>& shots) {
  SeasonPoint point;
  point.evening = evening;
  point.shots = shots.size();
  for (const Measure& measure : season_measures()) {
    std::vector<double> values;
    for (const SessionShot* entry : shots) {
      if (const auto value = measure.of(*entry)) values.push_back(*value);
    }
    point.means.push_back(stats::mean(values));
    if (measure.id == "exposure_db") point.exposure_deviation_db = stats::standard_deviation(values);
  }
  point.listened_for_hum = 2 * listened_to(shots, false) >= shots.size();
  point.listened_for_ping = 2 * listened_to(shots, true) >= shots.size();
  point.tones_hz = common_tones(shots);
  point.buzzes = buzzes(shots);
  return point;
}

std::vector<SeasonTrend> trends_of(const std::vector<SeasonPoint>& points) {
  std::vector<SeasonTrend> trends;
  for (std::size_t m = 0; m < season_measures().size(); ++m) {
    auto trend = trend_of(points, m);
    if (trend.sessions > 0) trends.push_back(std::move(trend));
  }
  return trends;
}

}  // namespace

std::optional<double> day_of(const std::string& iso_8601) {
  const auto year = digits(iso_8601, 0, 4);
  const auto month = digits(iso_8601, 5, 2);
  const auto day = digits(iso_8601, 8, 2);
  if (!year || !month || !day || *month < 1 || *month > 12 || *day < 1 || *day > 31) return std::nullopt;
  const int y = *month <= 2 ? *year - 1 : *year;
  const int era = y / 400;
  const int of_era = y - era * 400;
  const int of_year = (153 * (*month + (*month > 2 ? -3 : 9)) + 2) / 5 + *day - 1;
  const int days = era * 146097 + of_era * 365 + of_era / 4 - of_era / 100 + of_year - 719468;
  const double clock = digits(iso_8601, 11, 2).value_or(0) / 24.0 + digits(iso_8601, 14, 2).value_or(0) / 1440.0;
  return days + clock;
}

std::vector<Evening> evenings_of(const logbook::Logbook& logbook) {
  std::vector<Evening> evenings;
  for (const auto& conditions : logbook.sessions()) {
    const auto day = day_of(conditions.started_at);
    if (!day) continue;
    evenings.push_back({static_cast<int>(conditions.session), conditions.started_at, *day, conditions.check_tone_db,
                        conditions.full_scale_db_spl.has_value(), conditions.microphone, conditions.device, conditions.chain,
                        conditions.temperature_c});
  }
  return evenings;
}

bool is_ping(double frequency_hz) { return frequency_hz >= shot::MeasureSettings().ping_low_hz; }

std::vector<Measure> season_measures() {
  std::vector<Measure> measures;
  for (const char* id : kSeasonNumbers) measures.push_back(measure_of(*shot::find_number(id)));
  return measures;
}

std::vector<SetUpSeason> season_of(const Session& session, const std::vector<Evening>& evenings) {
  std::map<std::pair<std::string, std::string>, std::map<int, std::vector<const SessionShot*>>> kept;
  for (const SessionBlock* block : session.kept()) {
    for (const SessionShot& entry : block->shots) kept[{block->facts.bow, block->setup}][block->session].push_back(&entry);
  }
  std::vector<SetUpSeason> seasons;
  for (const auto& [name, by_session] : kept) {
    SetUpSeason season;
    season.bow = name.first;
    season.setup = name.second;
    for (const Evening& evening : evenings) {
      const auto shots = by_session.find(evening.session);
      if (shots != by_session.end()) season.points.push_back(point_of(evening, shots->second));
    }
    std::ranges::stable_sort(season.points, {}, [](const SeasonPoint& point) { return point.evening.day; });
    if (season.points.empty()) continue;
    season.trends = trends_of(season.points);
    season.triggers = triggers_of(season.points);
    season.scale_note = scale_note_of(season.points);
    season.chain_note = chain_note_of(season.points);
    season.air_note = air_note_of(season.points);
    seasons.push_back(std::move(season));
  }
  return seasons;
}

}  // namespace ringfall::compare
