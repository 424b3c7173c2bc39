// SPDX-License-Identifier: GPL-3.0-or-later
#include "logbook/entries.h"

#include "base/units.h"

namespace ringfall::logbook {

std::optional<double> added_mass_kg(const SetUp& setup) {
  std::optional<double> mass_kg = setup.added_mass_kg;
  if (mass_kg) return mass_kg;
  for (const Part& part : setup.fittings.parts) {
    if (part.mass_kg) mass_kg = mass_kg.value_or(0.0) + *part.mass_kg;
  }
  return mass_kg;
}

double reckoned_temperature_c(const Conditions& conditions) { return conditions.temperature_c.value_or(kAssumedTemperature_c); }

Comment taken_together(const std::vector<Comment>& comments) {
  Comment all;
  for (const Comment& comment : comments) {
    for (const auto rating : {&Comment::loud, &Comment::hum, &Comment::ping, &Comment::feel}) {
      if (comment.*rating) all.*rating = comment.*rating;
    }
    if (!comment.words.empty()) all.words += (all.words.empty() ? "" : "; ") + comment.words;
  }
  return all;
}

bool numbers_hidden(const KeptBlock& block, const KeptShot& shot) {
  return block.blind && block.comments.empty() && shot.comments.empty();
}

}  // namespace ringfall::logbook
