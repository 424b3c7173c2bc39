// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/json_text.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/check.h"
#include "base/screen_text.h"
#include "base/version.h"

namespace ringfall::report {

Json json_number(std::optional<double> value) {
  if (!value) return nullptr;
  check(std::isfinite(*value), "a printed number is finite");
  return *value;
}

Json json_findings(const std::vector<Finding>& findings) {
  Json list = Json::array();
  for (const Finding& finding : findings) {
    Json voids = Json::array();
    for (const Quantity quantity : finding.voids) voids.push_back(quantity_name(quantity));
    list.push_back({{"code", finding.code}, {"severity", severity_name(finding.severity)},
                    {"voids", voids}, {"sentence", finding.sentence}});
  }
  return list;
}

Json json_tool() { return {{"name", "ringfall"}, {"version", kVersion}}; }

std::string json_text(const Json& value) {
  return screen_json(value.dump(2, ' ', false, Json::error_handler_t::replace)) + "\n";
}

}  // namespace ringfall::report
