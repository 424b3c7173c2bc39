// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/setup_text.h"

#include "terminal/entry_text.h"

namespace ringfall::terminal {
namespace {

std::string joined_remarks(const std::string& one, const std::string& two) {
  return one + (one.empty() || two.empty() ? "" : ", ") + two;
}

}  // namespace

std::string bow_line(const logbook::Bow& bow, Units units) {
  const std::string rest = joined_remarks(fittings_text(bow.fittings, units), bow.note);
  return "  " + bow.name + (rest.empty() ? "" : ": " + rest) + "\n";
}

std::string setup_line(const logbook::SetUp& setup, bool name_the_bow, Units units) {
  std::string rest = joined_remarks(setup.changed, fittings_text(setup.fittings, units));
  if (const auto mass_kg = added_mass_kg(setup)) rest = joined_remarks(rest, "adds " + mass_text(*mass_kg, units));
  rest = joined_remarks(rest, setup.note);
  return "  " + (name_the_bow ? setup.bow + ": " : "") + setup.name + (setup.baseline ? " (baseline)" : "") +
         (rest.empty() ? "" : ": " + rest) + "\n";
}

}  // namespace ringfall::terminal
