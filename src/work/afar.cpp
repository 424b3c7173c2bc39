// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/afar.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/failure.h"
#include "work/limits.h"

namespace ringfall::work {
namespace {

double taken(std::optional<double> asked, std::optional<double> session, double assumed, AirFrom& from) {
  from = asked ? AirFrom::asked : session ? AirFrom::session : AirFrom::assumed;
  return asked ? *asked : session.value_or(assumed);
}

/// The last session in which the set-up was shot.
logbook::Conditions last_session(const logbook::Logbook& book, const compare::Session& session, const std::string& setup) {
  std::int64_t last = 0;
  for (const auto* block : session.kept()) {
    if (block->setup == setup) last = std::max<std::int64_t>(last, block->session);
  }
  return book.conditions(last);
}

void set_air(const AfarQuestion& asked, const logbook::Conditions& session, Afar& afar) {
  compare::Air& air = afar.question.air;
  afar.words.session = session.session;
  air.temperature_c = taken(asked.temperature_c, session.temperature_c, kAssumedTemperature_c, afar.words.temperature);
  air.humidity_percent = taken(asked.humidity_percent, session.humidity_percent, compare::kAssumedHumidity_percent, afar.words.humidity);
  air.pressure_kpa = asked.pressure_kpa;
  if (!kAfarAir_c.hold(air.temperature_c)) {
    throw RequestFailure(fmt::format("session {} was shot at {:g} C, and the estimate is made for {:g} to {:g} C; give --temperature",
                                     session.session, air.temperature_c, kAfarAir_c.low, kAfarAir_c.high));
  }
  if (!kAfarHumidity_percent.hold(air.humidity_percent)) {
    throw RequestFailure(fmt::format("session {} was shot at {:g} % humidity, and the estimate is made for {:g} % and more; give --humidity",
                                     session.session, air.humidity_percent, kAfarHumidity_percent.low));
  }
}

}  // namespace

std::optional<Afar> level_afar(const logbook::Logbook& book, const compare::Session& session, const std::string& setup, const AfarQuestion& asked,
                               const compare::ClipOf& clip_of) {
  Afar afar;
  set_air(asked, last_session(book, session, setup), afar);
  auto heard = compare::level_at_mark(session, setup, {}, clip_of);
  if (!heard) return std::nullopt;
  afar.heard = std::move(*heard);
  afar.question.at_mark = afar.heard.octaves;
  afar.question.mark_m = asked.mark_m;
  afar.question.arrow_speed_m_s = asked.arrow_speed_m_s ? asked.arrow_speed_m_s : afar.heard.arrow_speed_m_s;
  for (const double distance_m : asked.distances_m) {
    if (const auto estimate = compare::estimate_at(afar.question, distance_m)) afar.at.push_back(*estimate);
  }
  return afar;
}

}  // namespace ringfall::work
