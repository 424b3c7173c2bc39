// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/measure.h"

#include <fmt/format.h>

#include "base/failure.h"
#include "base/nearest.h"

namespace ringfall::compare {

std::optional<double> Measure::of(const SessionShot& entry) const {
  if (number) return number->of(entry.shot);
  return column < entry.values.size() ? entry.values[column] : std::nullopt;
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
  for (const shot::Number& number : shot::numbers()) measures.push_back(measure_of(number));
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
