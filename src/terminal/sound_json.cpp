// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/sound_json.h"

#include <nlohmann/json.hpp>

#include "report/json_text.h"

namespace ringfall::terminal {

using report::Json;
using report::json_findings;
using report::json_number;
using report::json_text;
using report::json_tool;

std::string devices_json(const std::vector<audio::Device>& devices, const std::string& last) {
  Json list = Json::array();
  for (const auto& device : devices) {
    list.push_back({{"number", device.number},
                    {"name", device.name},
                    {"host_system", device.host_system},
                    {"inputs", device.inputs},
                    {"outputs", device.outputs},
                    {"usual_rate_hz", json_number(device.usual_rate_hz)},
                    {"rates_hz", device.rates_hz},
                    {"raw", device.raw},
                    {"usual_input", device.usual_input},
                    {"usual_output", device.usual_output},
                    {"used_last", device.name == last},
                    {"cautions", device.cautions}});
  }
  return json_text({{"tool", json_tool()}, {"devices", list}});
}

std::string chain_json(const intake::ChainCheck& check) {
  return json_text({{"tool", json_tool()},
                    {"heard_clap", check.heard_clap},
                    {"floor_before_db", json_number(check.floor_before_db)},
                    {"floor_after_db", json_number(check.floor_after_db)},
                    {"clap_peak_db", json_number(check.clap_peak_db)},
                    {"highest_hz", json_number(check.highest_hz)},
                    {"room_decay_s", json_number(check.room_decay_s)},
                    {"clock_rate_hz", json_number(check.clock_rate_hz)},
                    {"verdicts", intake::chain_verdicts(check)},
                    {"findings", json_findings(check.findings)}});
}

std::string check_tone_json(double tone_hz, std::optional<double> level_db) {
  return json_text({{"tool", json_tool()}, {"check_tone_hz", tone_hz}, {"level_db", json_number(level_db)}});
}

}  // namespace ringfall::terminal
