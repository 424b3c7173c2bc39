// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "compare/session.h"
#include "shot/numbers.h"

namespace ringfall::compare {

/// Numbers that answer one question share the error that they may make together.
enum class Family {
  loudness,  ///< lead: exposure_db
  ring,      ///< how the whole sound dies; no lead
  tones,     ///< what rings in the tail; leads: hum, ping
  check,     ///< of chain, place and arrow: shown, never judged with the rest
  column     ///< of a foreign table
};

/// One number that set-ups are held against each other by: one of shot::numbers(), or a column of a foreign table.
struct Measure {
  std::string id;
  std::string label;
  std::string unit;
  int decimals = 2;
  double noticeable = 0.0;               ///< as shot::Number::noticeable; 0: not known
  const shot::Number* number = nullptr;  ///< of a measured shot
  std::size_t column = 0;                ///< else its place in SessionShot::values

  std::optional<double> of(const SessionShot& entry) const;
  /// Where a shot has no value because a ring may hide in it: how high the value can be at most; its least is 0. Hum and ping only.
  std::optional<double> at_most(const SessionShot& entry) const;
};

Measure measure_of(const shot::Number& number);

Family family_of(const Measure& measure);
/// "loudness", "ring", "tones", "check", "column".
std::string_view family_name(Family family);
/// Is it the number that speaks for its family?
bool is_lead(const Measure& measure);

/// What can be compared in a session: a foreign table's columns, else shot::numbers().
std::vector<Measure> measures_of(const Session& session);

/// The measure of this id. RequestFailure: there is none; the nearest is suggested.
Measure wanted_measure(const std::vector<Measure>& measures, const std::string& id);

}  // namespace ringfall::compare
