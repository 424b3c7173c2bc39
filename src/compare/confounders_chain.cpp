// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <iterator>
#include <map>
#include <optional>
#include <string_view>

#include "compare/air_doubts.h"
#include "compare/confounders.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr double kFloorStep_db = 3.0;   // a gain step, a fan, another place: said whatever the floor scatters by
constexpr double kLeastFloorStep_db = 0.8;  // the smallest gain step of common recorders is 1 dB (common practice, no source)
constexpr double kFloorSpreads = 3.0;       // of the floor's own standard deviation within blocks
constexpr double kFewestFloorDf = 4.0;
constexpr double kLagStep = 0.03;       // 3 % in lag: half a metre at 18 m, or an arrow of another weight
constexpr double kSamePlace_m = 0.3;

template <class Of>
std::optional<double> median_over(const SessionBlock& block, Of of) {
  std::vector<double> values;
  for (const auto& entry : block.shots) {
    if (const auto value = of(entry.shot)) values.push_back(*value);
  }
  return stats::median(values);
}

/// What a block of each session is held against: the session's first with a value.
struct UsualOfSession {
  double floor_step_db = kFloorStep_db;
  std::optional<double> floor_db;
  std::optional<double> lag_s;
  const SessionBlock* first = nullptr;
};

void judge_floor(const SessionBlock& block, UsualOfSession& usual, std::vector<Finding>& findings) {
  const auto floor = median_over(block, [](const shot::Shot& shot) { return shot.levels.floor_db; });
  if (!floor) return;
  if (!usual.floor_db) usual.floor_db = floor;
  if (std::abs(*floor - *usual.floor_db) <= usual.floor_step_db) return;
  findings.push_back(
      {"floor_changed", Severity::caution, {Quantity::levels, Quantity::hum, Quantity::ping},
       fmt::format("{}: the background is {:+.1f} dB against the first recording: gain, microphone or place changed. "
                   "Differences of level with this block are not the set-up's alone.",
                   block.file, *floor - *usual.floor_db)});
}

/// A gain step moves the floor by itself: how small a step can be told from how the floor scatters within blocks anyway.
double floor_step_told_db(const std::vector<const SessionBlock*>& blocks, int session) {
  double squares = 0.0;
  double df = 0.0;
  for (const SessionBlock* block : blocks) {
    if (block->session != session) continue;
    std::vector<double> floors;
    for (const auto& entry : block->shots) {
      if (entry.shot.levels.floor_db) floors.push_back(*entry.shot.levels.floor_db);
    }
    const auto deviation = stats::standard_deviation(floors);
    if (!deviation) continue;
    const double own_df = static_cast<double>(floors.size()) - 1.0;
    squares += own_df * *deviation * *deviation;
    df += own_df;
  }
  if (df < kFewestFloorDf) return kFloorStep_db;
  return std::clamp(kFloorSpreads * std::sqrt(squares / df), kLeastFloorStep_db, kFloorStep_db);
}

/// What phones write; it throws away what masks itself, tails first.
bool is_lossy(const std::string& file) {
  constexpr std::array<std::string_view, 12> kLossy = {"m4a", "mp3", "ogg", "oga", "opus", "aac", "amr", "3gp", "mp4", "mov", "wma", "webm"};
  const auto dot = file.rfind('.');
  if (dot == std::string::npos) return false;
  std::string ending = file.substr(dot + 1);
  std::ranges::transform(ending, ending.begin(), [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
  return std::ranges::find(kLossy, ending) != kLossy.end();
}

void judge_format(const SessionBlock& block, const SessionBlock& first, std::vector<Finding>& findings) {
  if (is_lossy(block.file) == is_lossy(first.file)) return;
  findings.push_back({"format_changed", Severity::caution, {Quantity::tones, Quantity::hum, Quantity::ping},
                      fmt::format("{} is a {} recording, {} a {} one: lossy formats leave out what is faint, and that is the tail. Record all "
                                  "in one format.",
                                  block.file, is_lossy(block.file) ? "lossy" : "lossless", first.file,
                                  is_lossy(first.file) ? "lossy" : "lossless")});
}

/// Each session keeps a level of its own, but what rings and how fast may hang on where and how it was recorded.
void judge_between_sessions(const std::map<int, UsualOfSession>& sessions, std::vector<Finding>& findings) {
  if (sessions.size() < 2) return;
  const auto& [first_number, first] = *sessions.begin();
  std::vector<int> other_chain;
  std::vector<int> other_place;
  for (const auto& [number, usual] : sessions) {
    const BlockFacts& now = usual.first->facts;
    const BlockFacts& then = first.first->facts;
    if (!now.chain.empty() && !then.chain.empty() && now.chain != then.chain) other_chain.push_back(number);
    if (now.distance_m && then.distance_m && std::abs(*now.distance_m - *then.distance_m) > kSamePlace_m) other_place.push_back(number);
  }
  if (!other_chain.empty()) {
    findings.push_back({"chain_differs_between_sessions", Severity::note, {},
                        fmt::format("Microphone or recorder of {} differ from session {}'s: what is the same within each session does no harm, "
                                    "but the two microphones may hear tones differently.",
                                    sessions_text(other_chain), first_number)});
  }
  if (!other_place.empty()) {
    findings.push_back({"distance_differs_between_sessions", Severity::note, {},
                        fmt::format("{} had another distance to the target than session {}: the tail that can be heard ends elsewhere.",
                                    sessions_text(other_place), first_number)});
  }
}

void judge_lag(const SessionBlock& block, UsualOfSession& usual, std::vector<Finding>& findings) {
  const auto lag = median_over(block, [](const shot::Shot& shot) { return shot.impact_lag_s; });
  if (!lag) return;
  if (!usual.lag_s) usual.lag_s = lag;
  if (std::abs(*lag / *usual.lag_s - 1.0) <= kLagStep) return;
  findings.push_back({"impact_lag_changed", Severity::caution, {},
                      fmt::format("{}: the arrow strikes after {:.0f} ms, in the first recording after {:.0f} ms: another "
                                  "distance, arrow or speed.",
                                  block.file, 1000.0 * *lag, 1000.0 * *usual.lag_s)});
}

void judge_recording(const SessionBlock& block, const SessionBlock& first, std::vector<Finding>& findings) {
  if (block.sample_rate_hz != first.sample_rate_hz) {
    findings.push_back({"sample_rate_changed", Severity::caution, {},
                        fmt::format("{}: recorded at {:g} Hz, the first at {:g} Hz: another chain.", block.file,
                                    block.sample_rate_hz, first.sample_rate_hz)});
  }
  const auto voids = [](const Finding& finding) { return finding.severity == Severity::void_; };
  std::size_t spoilt = 0;
  for (const auto& entry : block.shots) {
    if (std::ranges::any_of(entry.shot.findings, voids)) ++spoilt;
  }
  if (std::ranges::any_of(block.findings, voids) || (spoilt > 0 && 2 * spoilt >= block.shots.size())) {
    findings.push_back({"recording_spoilt", Severity::caution, {},
                        fmt::format("{}: some of its numbers are void and left out; `ringfall measure` says why.",
                                    block.file)});
  }
  if (block.shots.empty()) {
    findings.push_back({"no_shot", Severity::caution, {}, fmt::format("{}: no shot was found in it.", block.file)});
  }
}

void judge_facts(const SessionBlock& block, const SessionBlock& first, std::vector<Finding>& findings) {
  const BlockFacts& now = block.facts;
  const BlockFacts& then = first.facts;
  if (now.chain != then.chain || now.calibrated != then.calibrated) {
    findings.push_back({"chain_changed", Severity::caution, {Quantity::levels, Quantity::hum, Quantity::ping},
                        fmt::format("{}: microphone, recorder or calibration changed within the session: levels before and "
                                    "after can't be compared.",
                                    block.file)});
  }
  if (now.distance_m && then.distance_m && std::abs(*now.distance_m - *then.distance_m) > kSamePlace_m) {
    findings.push_back({"distance_changed", Severity::caution, {},
                        fmt::format("{}: shot at {:g} m, the first block at {:g} m: the tail ends elsewhere.", block.file,
                                    *now.distance_m, *then.distance_m)});
  }
}

/// Between sessions only those things matter that change the bow itself: temperature. A foreign table has no place to say it.
void judge_temperature(const Session& session, std::vector<Finding>& findings) {
  std::vector<AirOfSession> sessions;
  for (const SessionBlock* block : session.kept()) {
    if (!session.columns.empty()) continue;
    const bool speed = std::ranges::any_of(block->shots, [](const SessionShot& entry) { return entry.shot.arrow_speed_m_s.has_value(); });
    sessions.push_back({block->session, block->facts.temperature_c, speed});
  }
  std::ranges::move(air_doubts(sessions), std::back_inserter(findings));
}

}  // namespace

std::vector<Finding> chain_confounders(const Session& session) {
  std::vector<Finding> findings;
  std::map<int, UsualOfSession> sessions;
  const auto kept = session.kept();
  for (const SessionBlock* block : kept) {
    UsualOfSession& usual = sessions[block->session];
    if (!usual.first) {
      usual.first = block;
      usual.floor_step_db = floor_step_told_db(kept, block->session);
    }
    judge_floor(*block, usual, findings);
    judge_lag(*block, usual, findings);
    judge_recording(*block, *usual.first, findings);
    judge_format(*block, *usual.first, findings);
    judge_facts(*block, *usual.first, findings);
  }
  judge_between_sessions(sessions, findings);
  judge_temperature(session, findings);
  return findings;
}

}  // namespace ringfall::compare
