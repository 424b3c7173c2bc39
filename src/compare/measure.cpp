// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/measure.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/check.h"
#include "base/failure.h"
#include "base/nearest.h"

namespace ringfall::compare {
namespace {

constexpr std::array<std::string_view, 5> kRing = {"early_s", "late_s", "early_z_s", "late_z_s", "to_20_db_s"};
constexpr std::array<std::string_view, 4> kChecks = {"range_db", "floor_db", "impact_lag_s", "arrow_speed_m_s"};

}  // namespace

std::optional<double> Measure::of(const SessionShot& entry) const {
  if (number) return number->of(entry.shot);
  return column < entry.values.size() ? entry.values[column] : std::nullopt;
}

std::optional<double> Measure::at_most(const SessionShot& entry) const {
  if (!number || of(entry)) return std::nullopt;
  if (id == "hum") return entry.shot.hum_at_most;
  return id == "ping" ? entry.shot.ping_at_most : std::nullopt;
}

Family family_of(const Measure& measure) {
  if (!measure.number) return Family::column;
  if (std::ranges::find(kChecks, measure.id) != kChecks.end()) return Family::check;
  if (std::ranges::find(kRing, measure.id) != kRing.end()) return Family::ring;
  return measure.id.starts_with("hum") || measure.id.starts_with("ping") ? Family::tones : Family::loudness;
}

std::string_view family_name(Family family) {
  switch (family) {
    case Family::loudness: return "loudness";
    case Family::ring: return "ring";
    case Family::tones: return "tones";
    case Family::check: return "check";
    case Family::column: return "column";
  }
  check(false, "unknown family");
  return "";
}

bool is_lead(const Measure& measure) {
  return measure.number && (measure.id == "exposure_db" || measure.id == "hum" || measure.id == "ping");
}

Measure measure_of(const shot::Number& number) {
  return {std::string(number.id), std::string(number.label), std::string(number.unit), number.decimals, number.noticeable,
          &number, 0};
}

std::vector<Measure> measures_of(const Session& session) {
  std::vector<Measure> measures;
  for (std::size_t k = 0; k < session.columns.size(); ++k) {
    const Column& column = session.columns[k];
    measures.push_back({column.name, column.name, column.unit, column.decimals, column.noticeable, nullptr, k});
  }
  if (!measures.empty()) return measures;
  for (const shot::Number& number : shot::numbers()) {
    if (!number.bound) measures.push_back(measure_of(number));
  }
  return measures;
}

Measure wanted_measure(const std::vector<Measure>& measures, const std::string& id) {
  std::vector<std::string> names;
  for (const Measure& measure : measures) {
    if (measure.id == id) return measure;
    names.push_back(measure.id);
  }
  throw RequestFailure(fmt::format("there is no number '{}'{}", id, did_you_mean(id, names)));
}

}  // namespace ringfall::compare
