// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/session.h"
#include "shot/numbers.h"

namespace ringfall::compare {

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
};

Measure measure_of(const shot::Number& number);

/// What can be compared in a session: a foreign table's columns, else shot::numbers().
std::vector<Measure> measures_of(const Session& session);

/// The measure of this id. RequestFailure: there is none; the nearest is suggested.
Measure wanted_measure(const std::vector<Measure>& measures, const std::string& id);

}  // namespace ringfall::compare
