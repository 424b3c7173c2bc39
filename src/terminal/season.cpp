// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <cstdio>

#include "base/csv.h"
#include "base/local_time.h"
#include "base/text.h"
#include "compare/season.h"
#include "report/sentences.h"
#include "terminal/exit_status.h"
#include "terminal/ink.h"
#include "terminal/output.h"
#include "terminal/planning_json.h"
#include "terminal/text_table.h"
#include "terminal/verbs.h"
#include "work/seasons.h"

namespace ringfall::terminal {
namespace {

constexpr std::size_t kSeasonWidth = 100;
constexpr double kMonth_days = 30.0;
constexpr std::size_t kSessionsForTriggers = 4;

std::string points_table(const compare::SetUpSeason& season, const Ink& ink) {
  TextTable table;
  table.add_column("session", "");
  table.add_column("on", "", TextTable::Side::left);
  table.add_column("shots", "");
  table.add_column("levels re", "", TextTable::Side::left);
  const auto measures = compare::season_measures();
  for (const auto& measure : measures) table.add_column(measure.label, measure.unit);
  table.add_column("SD", "dB");
  table.add_column("check tone", "dB");
  for (const auto& point : season.points) {
    std::vector<std::string> row = {std::to_string(point.evening.session), local_day_text(point.evening.started_at),
                                    std::to_string(point.shots), point.evening.calibrated ? "20 uPa" : "full scale"};
    for (std::size_t k = 0; k < measures.size(); ++k) row.push_back(plain_number(point.means[k], measures[k].decimals));
    row.push_back(plain_number(point.exposure_deviation_db, 1));
    row.push_back(plain_number(point.evening.check_tone_db, 1));
    table.add_row(row);
  }
  std::string out;
  const auto lines = table.lines(2);
  for (std::size_t k = 0; k < lines.size(); ++k) out += k < 2 ? ink.quiet(lines[k]) : lines[k];
  return out;
}

std::string trend_text(const compare::SeasonTrend& trend) {
  const int decimals = trend.measure.decimals + 1;
  if (trend.sessions < 2) return fmt::format("{}: one session, no trend yet.", trend.measure.label);
  // A slope over an hour says nothing of a month.
  if (!trend.per_day || trend.days < 1.0) {
    return fmt::format("{}: {} sessions within a day, no trend yet.", trend.measure.label, trend.sessions);
  }
  std::string text = fmt::format("{}: {} {} a month{}", trend.measure.label,
                                 report::signed_number(kMonth_days * trend.per_day->slope, decimals), trend.measure.unit,
                                 trend.less_check_tone ? ", less the check tone's steps" : "");
  if (!trend.per_day->interval) return text + fmt::format(", not settled ({} sessions; five are needed).", trend.sessions);
  const stats::Interval month{kMonth_days * trend.per_day->interval->low, kMonth_days * trend.per_day->interval->high};
  return text + fmt::format(", 95 % interval {} ({} sessions): {}.", report::interval_text(month, decimals), trend.sessions,
                            month.contains(0.0) ? "not settled" : "a trend");
}

/// No trigger: nothing to see, or too early to see it.
std::string quiet_text(const compare::SetUpSeason& season) {
  if (season.points.size() < kSessionsForTriggers) return "Fewer than four sessions: too early for anything to stand out.";
  for (const auto& trend : season.trends) {
    if (trend.measure.id != "exposure_db" || trend.sessions >= kSessionsForTriggers) continue;
    return "Nothing asks for a look; with fewer than four sessions of the newest scale it is too early for levels.";
  }
  return "Nothing asks for a look.";
}

std::string season_text(const work::Season& all, const Ink& ink) {
  std::string out;
  for (std::size_t k = 0; k < all.setups.size(); ++k) {
    const auto& season = all.setups[k];
    out += (out.empty() ? "" : "\n") + ink.strong(fmt::format("{}, {}", season.bow, season.setup)) + "\n" + points_table(season, ink);
    for (const auto& trend : season.trends) out += "  " + wrapped(trend_text(trend), kSeasonWidth, 4) + "\n";
    if (!season.scale_note.empty()) out += "  " + wrapped(season.scale_note, kSeasonWidth, 4) + "\n";
    out += "  " + wrapped(season.chain_note, kSeasonWidth, 4) + "\n";
    if (!season.air_note.empty()) out += "  " + wrapped(season.air_note, kSeasonWidth, 4) + "\n";
    for (const auto& change : all.changes[k]) out += "  " + wrapped(change, kSeasonWidth, 4) + "\n";
    for (const auto& trigger : season.triggers) out += "  " + ink.strong(wrapped(trigger.sentence, kSeasonWidth, 4)) + "\n";
    if (season.triggers.empty()) out += "  " + wrapped(quiet_text(season), kSeasonWidth, 4) + "\n";
  }
  return out;
}

std::string season_csv(const std::vector<compare::SetUpSeason>& seasons) {
  std::string out = "bow,setup,session,started_at,shots,level_reference";
  for (const auto& measure : compare::season_measures()) out += "," + csv_cell(measure.id);
  out += ",exposure_sd_db,check_tone_db,temperature_c\r\n";
  const auto cell = [](std::optional<double> value) { return value ? fmt::format(",{:.6g}", *value) : std::string(","); };
  for (const auto& season : seasons) {
    for (const auto& point : season.points) {
      out += fmt::format("{},{},{},{},{},{}", csv_cell(season.bow), csv_cell(season.setup), point.evening.session, point.evening.started_at,
                         point.shots, point.evening.calibrated ? "re 20 uPa" : "re full scale");
      for (const auto& mean : point.means) out += cell(mean);
      out += cell(point.exposure_deviation_db) + cell(point.evening.check_tone_db) + cell(point.evening.temperature_c) + "\r\n";
    }
  }
  return out;
}

}  // namespace

int season(const SeasonRequest& request) {
  const logbook::Logbook book(request.logbook);
  const auto read = *work::read_season(book, request.bow);
  const auto& seasons = read.setups;
  if (seasons.empty()) {
    complain("ringfall: no shot that counts is in the logbook yet\n");
    return kNotMeasured;
  }
  const std::string out = request.json  ? season_json(read)
                          : request.csv ? season_csv(seasons)
                                        : season_text(read, Ink::for_standard_output());
  request.csv ? put_data(out) : put(out);
  return kDone;
}

}  // namespace ringfall::terminal
