// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/measure.h"
#include "compare/session.h"
#include "logbook/logbook.h"
#include "stats/trend.h"

namespace ringfall::compare {

/// When a session was, of what scale its levels are, and how its chain read the same check tone. Empty words: not said.
struct Evening {
  int session = 0;
  std::string started_at;  ///< UTC, ISO 8601
  double day = 0.0;        ///< since 1970-01-01
  std::optional<double> check_tone_db;
  bool calibrated = false;      ///< levels are re 20 uPa, else re full scale
  std::string microphone = {};
  std::string device = {};
  std::string chain = {};       ///< recorder, gain, placing
  std::optional<double> temperature_c = {};
};
std::vector<Evening> evenings_of(const logbook::Logbook& logbook);

/// Days since 1970-01-01 of "2026-11-25T17:30:00Z" (a date alone will do); nullopt: it is none.
std::optional<double> day_of(const std::string& iso_8601);

/// One session of one set-up.
struct SeasonPoint {
  Evening evening;
  std::size_t shots = 0;
  std::vector<std::optional<double>> means;  ///< one a season_measures()
  std::optional<double> exposure_deviation_db;
  /// Could half of the shots or more be listened to for a hum (and what is between), for a ping? Without, no tone means nothing.
  bool listened_for_hum = false;
  bool listened_for_ping = false;
  std::vector<double> tones_hz;  ///< heard in half or more of the shots listened to, ascending
  bool buzzes = false;           ///< strong and of one rate in most shots
};

/// A number over the season.
struct SeasonTrend {
  Measure measure;
  std::size_t sessions = 0;      ///< with the number, on the scale of the newest where the number hangs on it
  double days = 0.0;             ///< from the first of them to the last
  bool less_check_tone = false;  ///< the check tone's steps are taken off
  std::optional<stats::RobustTrend> per_day;      ///< nullopt: all at one instant
  std::optional<stats::RankAgreement> rise;       ///< Mann-Kendall; nullopt: under three sessions
};

enum class TriggerKind { louder, more_hum, two_high, new_tone, tone_moved, buzz, spread, speed, chain };

/// Something that asks for a look.
struct Trigger {
  TriggerKind kind = TriggerKind::louder;
  int session = 0;
  bool inspect = true;   ///< stop and inspect the bow before more shots; false: the chain, not the bow
  std::string sentence;
};

struct SetUpSeason {
  std::string bow;
  std::string setup;
  std::vector<SeasonPoint> points;  ///< in time order
  std::vector<SeasonTrend> trends;
  std::vector<Trigger> triggers;    ///< in time order
  std::string scale_note;           ///< whose levels are of another scale; empty: nobody's
  std::string chain_note;           ///< what the check tone says, or that there is none
  std::string air_note;             ///< what warmth and cold leave open; empty: nothing
};

/// The numbers a season follows: sound exposure, hum, ping, late ring-down, arrow speed.
std::vector<Measure> season_measures();

/// Is a tone of this frequency listened for as a ping? Else as a hum, or between the two.
bool is_ping(double frequency_hz);

/// Trend (Theil-Sen with interval from 5 sessions, Mann-Kendall) and triggers of every bow's every set-up. A trigger needs three earlier sessions.
/// Definitions: docs/measures/season.md. Tests: compare.Season.*
std::vector<SetUpSeason> season_of(const Session& session, const std::vector<Evening>& evenings);

/// The triggers of one set-up's points; compare/season_triggers.cpp.
std::vector<Trigger> triggers_of(const std::vector<SeasonPoint>& points);

}  // namespace ringfall::compare
