// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/shot_details.h"

#include <nlohmann/json.hpp>
#include <optional>

namespace ringfall::logbook {
namespace {

using DetailsJson = nlohmann::ordered_json;

DetailsJson value_or_null(std::optional<double> value) { return value ? DetailsJson(*value) : DetailsJson(); }

std::optional<double> maybe_value(const DetailsJson& entry, const char* name) {
  const auto found = entry.find(name);
  if (found == entry.end() || !found->is_number()) return std::nullopt;
  return found->get<double>();
}

/// The list of this name; empty when there is none.
const DetailsJson& list_of(const DetailsJson& all, const char* name) {
  static const DetailsJson kNone = DetailsJson::array();
  const auto found = all.find(name);
  return found != all.end() && found->is_array() ? *found : kNone;
}

}  // namespace

std::string details_text(const shot::Shot& shot) {
  DetailsJson hits = DetailsJson::array();
  for (const auto& hit : shot.hits) hits.push_back({{"lag_s", hit.lag_s}, {"level_db", value_or_null(hit.level_db)}});
  DetailsJson bands = DetailsJson::array();
  for (const auto& band : shot.ring_down.bands) {
    bands.push_back({{"centre_hz", band.centre_hz}, {"late_s", value_or_null(band.late_s)}, {"range_db", value_or_null(band.range_db)}});
  }
  DetailsJson all = {{"hits", hits}, {"bands", bands}};
  if (shot.buzz) all["buzz"] = {{"modulation_db", shot.buzz->modulation_db}, {"rate_hz", shot.buzz->rate_hz}};
  return all.dump();
}

void read_details(const std::string& text, shot::Shot& shot) {
  const auto all = DetailsJson::parse(text, nullptr, false);
  if (!all.is_object()) return;
  for (const auto& entry : list_of(all, "hits")) {
    const auto lag_s = maybe_value(entry, "lag_s");
    if (lag_s) shot.hits.push_back({*lag_s, maybe_value(entry, "level_db")});
  }
  for (const auto& entry : list_of(all, "bands")) {
    const auto centre_hz = maybe_value(entry, "centre_hz");
    if (centre_hz) shot.ring_down.bands.push_back({*centre_hz, maybe_value(entry, "late_s"), maybe_value(entry, "range_db")});
  }
  const auto buzz = all.find("buzz");
  if (buzz == all.end()) return;
  const auto modulation_db = maybe_value(*buzz, "modulation_db");
  const auto rate_hz = maybe_value(*buzz, "rate_hz");
  if (modulation_db && rate_hz) shot.buzz = shot::Buzz{*modulation_db, *rate_hz};
}

}  // namespace ringfall::logbook
