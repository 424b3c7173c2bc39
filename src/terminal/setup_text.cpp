// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/setup_text.h"

#include "report/entry_text.h"

namespace ringfall::terminal {

std::string bow_line(const logbook::Bow& bow, Units units) {
  const std::string rest = report::bow_text(bow, units);
  return "  " + bow.name + (rest.empty() ? "" : ": " + rest) + "\n";
}

std::string setup_line(const logbook::SetUp& setup, bool name_the_bow, Units units) {
  const std::string rest = report::setup_text(setup, units);
  return "  " + (name_the_bow ? setup.bow + ": " : "") + setup.name + (setup.baseline ? " (baseline)" : "") +
         (rest.empty() ? "" : ": " + rest) + "\n";
}

}  // namespace ringfall::terminal
