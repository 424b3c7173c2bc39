// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/compare_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "report/compare_words_json.h"
#include "report/json_text.h"
#include "report/sentences.h"
#include "report/tone_change.h"

namespace ringfall::report {
namespace {

Json json_of(const compare::Spread& spread) {
  return {{"n", spread.n},
          {"blocks", spread.blocks},
          {"units", spread.blocks},
          {"mean", json_number(spread.mean)},
          {"standard_deviation", json_number(spread.deviation)}};
}

Json json_of(const std::optional<stats::Difference>& difference) {
  if (!difference) return nullptr;
  return {{"difference", json_number(difference->difference)},
          {"low_95", json_number(difference->interval.low)},
          {"high_95", json_number(difference->interval.high)},
          {"p", json_number(difference->p)}};
}

Json json_of(const compare::NumberDifference& row) {
  Json out = {{"number", row.number->id},       {"unit", row.number->unit},
              {"baseline", json_of(row.baseline)}, {"setup", json_of(row.setup)},
              {"difference", nullptr},          {"low_95", nullptr},
              {"high_95", nullptr},             {"p", nullptr},
              {"adjusted_p", nullptr},          {"permutation_p", row.permutation_p},
              {"verdict", nullptr},             {"units_to_settle", nullptr},
              {"robust_shift", nullptr},        {"with_drops", json_of(row.with_drops)},
              {"unit_of_analysis", "block"}, {"sessions", row.sessions},
              {"smallest_permutation_p", row.smallest_permutation_p}, {"drops_add_nothing", row.drops_add_nothing}};
  if (row.difference) {
    out["difference"] = json_number(row.difference->difference);
    out["low_95"] = json_number(row.difference->interval.low);
    out["high_95"] = json_number(row.difference->interval.high);
    out["p"] = json_number(row.difference->p);
    out["adjusted_p"] = json_number(row.adjusted_p);
    out["verdict"] = compare::verdict_words(row.verdict);
  }
  if (row.robust) out["robust_shift"] = json_number(row.robust->shift);
  if (row.units_to_settle) out["units_to_settle"] = *row.units_to_settle;
  return out;
}

Json json_of(const compare::ShootingOrder& order) {
  const char* judged = order.judgement == compare::OrderJudgement::balanced  ? "balanced"
                       : order.judgement == compare::OrderJudgement::leaning ? "leaning"
                                                                             : "confounded";
  return {{"blocks", order.blocks}, {"share_of_drift", json_number(order.share)}, {"judgement", judged}};
}

Json json_of(const std::optional<compare::DriftSeen>& drift) {
  if (!drift) return nullptr;
  Json out = {{"per_shot", json_number(drift->per_shot.slope)},
              {"low_95", nullptr},
              {"high_95", nullptr},
              {"p", json_number(drift->per_shot.p)},
              {"over_session", json_number(drift->over_session)}};
  if (drift->per_shot.interval) {
    out["low_95"] = json_number(drift->per_shot.interval->low);
    out["high_95"] = json_number(drift->per_shot.interval->high);
  }
  return out;
}

Json json_of(const std::vector<compare::OutlyingShot>& shots) {
  Json out = Json::array();
  for (const auto& shot : shots) {
    out.push_back({{"number", shot.measure},
                   {"setup", shot.setup},
                   {"file", shot.file},
                   {"shot", shot.number},
                   {"value", json_number(shot.value)},
                   {"median", json_number(shot.median)},
                   {"robust_z", json_number(shot.robust_z)}});
  }
  return out;
}

Json json_of(const std::optional<compare::SetUpTone>& entry) {
  if (!entry) return nullptr;
  return {{"frequency_hz", json_number(entry->tone.frequency_hz)},
          {"level_db", json_number(entry->tone.level_db)},
          {"ring_time_s", json_number(entry->tone.ring_time_s)},
          {"shots", entry->readings.size()}};
}

const char* match_name(compare::ToneMatch match) {
  switch (match) {
    case compare::ToneMatch::same: return "same";
    case compare::ToneMatch::perhaps_moved: return "perhaps_moved";
    case compare::ToneMatch::gone: return "gone";
    case compare::ToneMatch::added: return "added";
  }
  return "";
}

/// What a stated difference of the main number would need; null: none was stated, or no answer.
Json json_of(const std::optional<double>& wanted, const compare::NumberDifference& main) {
  const auto needed = wanted ? compare::units_for_difference(main, *wanted) : std::nullopt;
  if (!needed) return nullptr;
  return {{"each", needed->each}, {"more_baseline", needed->more_baseline}, {"more_setup", needed->more_setup}};
}

Json with_unit(Json difference) {
  if (!difference.is_null()) difference["unit_of_analysis"] = "block";
  return difference;
}

Json json_of(const compare::ToneChange& change) {
  return {{"match", match_name(change.match)},
          {"family", family_word((change.baseline ? change.baseline : change.setup)->tone.family)},
          {"baseline", json_of(change.baseline)},
          {"setup", json_of(change.setup)},
          {"level_db", with_unit(json_of(change.level_db))},
          {"adjusted_p_level", json_number(change.adjusted_p_level)},
          {"ring_time_s", with_unit(json_of(change.ring_time_s))},
          {"adjusted_p_ring_time", json_number(change.adjusted_p_ring_time)},
          {"level_at_least", change.level_at_least},
          {"level_told", change.level_told()},
          {"ring_time_told", change.ring_time_told()}};
}

}  // namespace

std::string compare_json(const compare::Comparison& comparison, const compare::Session& session) {
  Json against = Json::array();
  for (const auto& setup : comparison.against) {
    const auto& main = setup.numbers.front();
    Json numbers = Json::array();
    for (const auto& row : setup.numbers) numbers.push_back(json_of(row));
    Json tones = Json::array();
    for (const auto& change : setup.tones) tones.push_back(json_of(change));
    against.push_back({{"setup", setup.setup},
                       {"unit", "block"},
                       {"baseline_units", main.baseline.blocks},
                       {"setup_units", main.setup.blocks},
                       {"units_for_wanted", json_of(comparison.wanted_difference, main)},
                       {"sentence", main_sentence(setup, comparison.baseline)},
                       {"ring_down", ring_down_sentences(setup, comparison.baseline)},
                       {"order", json_of(setup.order)},
                       {"drift_in_difference", json_number(setup.drift_in_difference)},
                       {"numbers", numbers},
                       {"tones", tones}});
  }
  return json_text({{"tool", json_tool()},
                    {"baseline", comparison.baseline},
                    {"main_number", comparison.main_number},
                    {"setups", comparison.setups},
                    {"wanted_difference", json_number(comparison.wanted_difference)},
                    {"against", against},
                    {"drift", json_of(comparison.drift)},
                    {"outlying_shots", json_of(comparison.outlying)},
                    {"words", compare_words_json(session, comparison.main_number)},
                    {"findings", json_findings(comparison.findings)}});
}

}  // namespace ringfall::report
