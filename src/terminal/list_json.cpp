// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/list_json.h"

#include <nlohmann/json.hpp>

#include "shot/numbers.h"
#include "terminal/json_text.h"

namespace ringfall::terminal {
namespace {

Json reason(const std::string& dropped) { return dropped.empty() ? Json() : Json(dropped); }

Json json_of(const logbook::KeptShot& kept) {
  Json numbers = Json::object();
  for (const auto& number : shot::numbers()) numbers[std::string(number.id)] = json_number(number.of(kept.shot));
  Json comments = Json::array();
  for (const auto& said : kept.comments) {
    comments.push_back({{"said_at", said.said_at},
                        {"loud", json_number(said.loud)},
                        {"hum", json_number(said.hum)},
                        {"ping", json_number(said.ping)},
                        {"feel", json_number(said.feel)},
                        {"words", said.words}});
  }
  return {{"shot", kept.id},
          {"number", kept.shot.number},
          {"onset_s", kept.shot.onset_s},
          {"analyser", kept.analyser.empty() ? Json() : Json(kept.analyser)},
          {"dropped", reason(kept.dropped)},
          {"numbers", numbers},
          {"comments", comments},
          {"findings", json_findings(kept.shot.findings)}};
}

}  // namespace

std::string list_json(const logbook::Logbook& book) {
  const auto conditions = book.conditions();
  Json setups = Json::array();
  for (const auto& setup : book.setups()) {
    setups.push_back({{"name", setup.name},
                      {"changed", setup.changed},
                      {"baseline", setup.baseline},
                      {"added_mass_kg", json_number(setup.added_mass_kg)}});
  }
  Json blocks = Json::array();
  for (const auto& block : book.blocks()) {
    Json shots = Json::array();
    for (const auto& kept : block.shots) shots.push_back(json_of(kept));
    blocks.push_back({{"block", block.number},
                      {"setup", block.setup},
                      {"file", block.file},
                      {"note", block.note},
                      {"dropped", reason(block.dropped)},
                      {"findings", json_findings(block.findings)},
                      {"shots", shots}});
  }
  return json_text({{"tool", json_tool()},
                    {"bow", conditions.bow},
                    {"started_at", conditions.started_at},
                    {"place", conditions.place},
                    {"distance_m", json_number(conditions.distance_m)},
                    {"temperature_c", conditions.temperature_c},
                    {"chain", conditions.chain},
                    {"full_scale_db_spl", json_number(conditions.full_scale_db_spl)},
                    {"setups", setups},
                    {"blocks", blocks}});
}

}  // namespace ringfall::terminal
