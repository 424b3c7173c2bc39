// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/planning_json.h"

#include <nlohmann/json.hpp>

#include "compare/plan_advice.h"
#include "report/json_text.h"

namespace ringfall::terminal {

using report::Json;
using report::json_number;
using report::json_text;
using report::json_tool;

namespace {

const char* trigger_name(compare::TriggerKind kind) {
  switch (kind) {
    case compare::TriggerKind::louder: return "louder";
    case compare::TriggerKind::more_hum: return "more_hum";
    case compare::TriggerKind::two_high: return "two_high";
    case compare::TriggerKind::new_tone: return "new_tone";
    case compare::TriggerKind::tone_moved: return "tone_moved";
    case compare::TriggerKind::buzz: return "buzz";
    case compare::TriggerKind::spread: return "spread";
    case compare::TriggerKind::speed: return "speed";
    case compare::TriggerKind::chain: return "chain";
  }
  return "";
}

Json json_of_trend(const compare::SeasonTrend& trend) {
  Json out = {{"number", trend.measure.id}, {"unit", trend.measure.unit}, {"sessions", trend.sessions},
              {"days", json_number(trend.days)}, {"less_check_tone", trend.less_check_tone},
              {"per_day", nullptr},         {"low_95", nullptr},          {"high_95", nullptr},
              {"p", nullptr}};
  if (trend.per_day) {
    out["per_day"] = json_number(trend.per_day->slope);
    if (trend.per_day->interval) {
      out["low_95"] = json_number(trend.per_day->interval->low);
      out["high_95"] = json_number(trend.per_day->interval->high);
    }
  }
  if (trend.rise) out["p"] = json_number(trend.rise->p);
  return out;
}

Json json_of_point(const compare::SeasonPoint& point) {
  Json numbers = Json::object();
  const auto measures = compare::season_measures();
  for (std::size_t k = 0; k < measures.size(); ++k) numbers[measures[k].id] = json_number(point.means[k]);
  return {{"session", point.evening.session},
          {"started_at", point.evening.started_at},
          {"shots", point.shots},
          {"level_reference", point.evening.calibrated ? "re 20 uPa" : "re full scale"},
          {"means", numbers},
          {"exposure_sd_db", json_number(point.exposure_deviation_db)},
          {"listened_for_hum", point.listened_for_hum},
          {"listened_for_ping", point.listened_for_ping},
          {"tones_hz", point.tones_hz},
          {"buzz", point.buzzes},
          {"check_tone_db", json_number(point.evening.check_tone_db)},
          {"temperature_c", json_number(point.evening.temperature_c)}};
}

Json json_of_bands(const std::vector<compare::OctaveLevel>& bands) {
  Json out = Json::array();
  for (const auto& band : bands) out.push_back({{"octave_hz", band.nominal_hz}, {"level_db", json_number(band.level_db)}});
  return out;
}

const char* air_from(work::AirFrom from) {
  return from == work::AirFrom::asked ? "asked" : from == work::AirFrom::session ? "session" : "assumed";
}

}  // namespace

std::string plan_json(const PlanRequest& request, const compare::ShootingPlan& plan, const compare::ShotScatter& scatter,
                      const compare::Measure& measure) {
  Json order = Json::array();
  for (const auto& block : plan.order) order.push_back({{"setup", request.setups[block.setup]}, {"shots", block.shots}});
  return json_text({{"tool", json_tool()},
                    {"number", measure.id},
                    {"unit", measure.unit},
                    {"wanted_difference", json_number(request.wanted)},
                    {"spread", {{"within_block", json_number(scatter.within_block)},
                                {"between_blocks", json_number(scatter.between_blocks)},
                                {"shots", scatter.shots},
                                {"blocks", scatter.blocks}}},
                    {"order", order},
                    {"shots_per_block", plan.shots_per_block},
                    {"blocks_per_setup", plan.blocks_per_setup},
                    {"shots_per_setup", plan.shots_per_setup},
                    {"arrows", plan.arrows},
                    {"power", json_number(plan.power)},
                    {"reaches_wanted_power", plan.reaches},
                    {"expected_half_width", json_number(plan.half_width)},
                    {"detectable_difference", json_number(plan.detectable)},
                    {"too_many_for_one_evening", plan.too_many},
                    {"checklist", compare::checklist()},
                    {"microphone", compare::microphone_placing()},
                    {"safety", compare::shooting_cautions()}});
}

std::string season_json(const work::Season& all) {
  Json setups = Json::array();
  for (std::size_t k = 0; k < all.setups.size(); ++k) {
    const auto& season = all.setups[k];
    Json points = Json::array();
    for (const auto& point : season.points) points.push_back(json_of_point(point));
    Json trends = Json::array();
    for (const auto& trend : season.trends) trends.push_back(json_of_trend(trend));
    Json triggers = Json::array();
    for (const auto& trigger : season.triggers) {
      triggers.push_back({{"kind", trigger_name(trigger.kind)},
                          {"session", trigger.session},
                          {"stop_and_inspect", trigger.inspect},
                          {"sentence", trigger.sentence}});
    }
    setups.push_back({{"bow", season.bow},
                      {"setup", season.setup},
                      {"sessions", points},
                      {"trends", trends},
                      {"triggers", triggers},
                      {"scale", season.scale_note},
                      {"chain", season.chain_note},
                      {"air", season.air_note},
                      {"changes_of_the_bow", all.changes[k]}});
  }
  return json_text({{"tool", json_tool()}, {"setups", setups}});
}

std::string hunting_json(const HuntingRequest& request, const work::Afar& afar) {
  const auto& [heard, question, words, estimates] = afar;
  Json at = Json::array();
  for (const auto& estimate : estimates) {
    at.push_back({{"distance_m", json_number(estimate.distance_m)},
                  {"exposure_a_db", json_number(estimate.level_a_db)},
                  {"exposure_z_db", json_number(estimate.level_z_db)},
                  {"exposure_2_16_khz_db", json_number(estimate.level_high_db)},
                  {"high_octaves_to_hz", json_number(estimate.high_to_hz)},
                  {"spreading_db", json_number(estimate.spreading_db)},
                  {"lost_in_air_a_db", json_number(estimate.lost_in_air_a_db)},
                  {"sound_s", json_number(estimate.sound_s)},
                  {"arrow_s", json_number(estimate.arrow_s)},
                  {"octaves", json_of_bands(estimate.bands)}});
  }
  return json_text({{"tool", json_tool()},
                    {"setup", request.setup},
                    {"shots", heard.shots},
                    {"shots_of_another_scale", heard.other_scale},
                    {"exposure_sd_db", json_number(heard.deviation_db)},
                    {"level_reference", heard.calibrated ? "re 20 uPa" : "re full scale"},
                    {"mark_m", json_number(question.mark_m)},
                    {"air", {{"temperature_c", json_number(question.air.temperature_c)},
                             {"humidity_percent", json_number(question.air.humidity_percent)},
                             {"pressure_kpa", json_number(question.air.pressure_kpa)},
                             {"temperature_from", air_from(words.temperature)},
                             {"humidity_from", air_from(words.humidity)}}},
                    {"last_session", words.session},
                    {"at_mark", json_of_bands(question.at_mark)},
                    {"at", at},
                    {"not_modelled", compare::not_modelled()},
                    {"cautions", compare::hunting_cautions()}});
}

}  // namespace ringfall::terminal
