// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/list_json.h"

#include <nlohmann/json.hpp>

#include "report/json_text.h"
#include "shot/numbers.h"
#include "terminal/measure_json.h"

namespace ringfall::terminal {

using report::Json;
using report::json_findings;
using report::json_number;
using report::json_text;
using report::json_tool;

namespace {

Json text_or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

Json json_of(const logbook::Fittings& fittings) {
  static constexpr const char* kKinds[] = {"mass", "damper", "silencer", "other"};
  Json parts = Json::array();
  for (const auto& part : fittings.parts) {
    parts.push_back({{"kind", kKinds[static_cast<std::size_t>(part.kind)]}, {"what", part.what}, {"place", part.place},
                     {"mass_kg", json_number(part.mass_kg)}});
  }
  return {{"draw_weight_n", json_number(fittings.draw_weight_n)},
          {"brace_height_m", json_number(fittings.brace_height_m)},
          {"arrow_mass_kg", json_number(fittings.arrow_mass_kg)},
          {"string", text_or_null(fittings.string)},
          {"silencers", text_or_null(fittings.silencers)},
          {"parts", parts}};
}

Json list_of(const std::vector<logbook::Bow>& bows) {
  Json list = Json::array();
  for (const auto& bow : bows) list.push_back({{"name", bow.name}, {"fittings", json_of(bow.fittings)}, {"note", bow.note}});
  return list;
}

Json list_of(const std::vector<logbook::SetUp>& setups) {
  Json list = Json::array();
  for (const auto& setup : setups) {
    list.push_back({{"name", setup.name},
                    {"bow", setup.bow},
                    {"changed", setup.changed},
                    {"baseline", setup.baseline},
                    {"added_mass_kg", json_number(added_mass_kg(setup))},
                    {"fittings", json_of(setup.fittings)},
                    {"note", setup.note}});
  }
  return list;
}

Json list_of(const std::vector<logbook::Comment>& comments) {
  Json list = Json::array();
  for (const auto& said : comments) {
    list.push_back({{"comment", said.id},
                    {"said_at", said.said_at},
                    {"changed_at", text_or_null(said.changed_at)},
                    {"blind", said.blind},
                    {"loud", json_number(said.loud)},
                    {"hum", json_number(said.hum)},
                    {"ping", json_number(said.ping)},
                    {"feel", json_number(said.feel)},
                    {"words", said.words}});
  }
  return list;
}

Json json_of(const logbook::Conditions& session) {
  return {{"session", session.session},
          {"bow", session.bow},
          {"started_at", session.started_at},
          {"place", session.place},
          {"distance_m", json_number(session.distance_m)},
          {"temperature_c", json_number(session.temperature_c)},
          {"humidity_percent", json_number(session.humidity_percent)},
          {"chain", session.chain},
          {"microphone", session.microphone},
          {"device", session.device},
          {"full_scale_db_spl", json_number(session.full_scale_db_spl)},
          {"check_tone_db", json_number(session.check_tone_db)},
          {"blind", session.blind},
          {"note", session.note}};
}

Json head_of(const logbook::KeptBlock& block, const logbook::KeptShot& kept) {
  return {{"shot", kept.id},
          {"number", kept.shot.number},
          {"onset_s", kept.shot.onset_s},
          {"analyser", text_or_null(kept.analyser)},
          {"dropped", text_or_null(kept.dropped)},
          {"hidden", numbers_hidden(block, kept)}};
}

Json json_of(const logbook::KeptBlock& block, const logbook::KeptShot& kept) {
  const bool hidden = numbers_hidden(block, kept);
  Json numbers = Json::object();
  for (const auto& number : shot::numbers()) {
    numbers[std::string(number.id)] = hidden ? Json() : json_number(number.of(kept.shot));
  }
  Json entry = head_of(block, kept);
  entry["numbers"] = numbers;
  entry["comments"] = list_of(kept.comments);
  entry["findings"] = hidden ? Json::array() : json_findings(kept.shot.findings);
  return entry;
}

}  // namespace

std::string bows_json(const std::vector<logbook::Bow>& bows) { return json_text({{"tool", json_tool()}, {"bows", list_of(bows)}}); }

std::string setups_json(const std::vector<logbook::SetUp>& setups) {
  return json_text({{"tool", json_tool()}, {"setups", list_of(setups)}});
}

std::string show_json(const logbook::KeptBlock& block, const logbook::KeptShot& kept) {
  Json entry = head_of(block, kept);
  entry["session"] = block.session;
  entry["bow"] = block.bow;
  entry["setup"] = block.setup;
  entry["block"] = block.number;
  entry["file"] = block.file;
  entry["comments"] = list_of(kept.comments);
  entry["block_comments"] = list_of(block.comments);
  entry["measured"] = numbers_hidden(block, kept) || kept.analyser.empty() ? Json() : shot_json(kept.shot);
  return json_text({{"tool", json_tool()}, {"shot", entry}});
}

std::string list_json(const logbook::Logbook& book) {
  Json all = {{"tool", json_tool()}};
  all.update(json_of(book.conditions()));
  Json sessions = Json::array();
  for (const auto& session : book.sessions()) sessions.push_back(json_of(session));
  Json blocks = Json::array();
  for (const auto& block : book.blocks()) {
    Json shots = Json::array();
    for (const auto& kept : block.shots) shots.push_back(json_of(block, kept));
    blocks.push_back({{"block", block.number},
                      {"session", block.session},
                      {"bow", block.bow},
                      {"setup", block.setup},
                      {"file", block.file},
                      {"note", block.note},
                      {"dropped", text_or_null(block.dropped)},
                      {"comments", list_of(block.comments)},
                      {"findings", json_findings(block.findings)},
                      {"shots", shots}});
  }
  all["bows"] = list_of(book.bows());
  all["sessions"] = sessions;
  all["setups"] = list_of(book.setups());
  all["blocks"] = blocks;
  return json_text(all);
}

}  // namespace ringfall::terminal
