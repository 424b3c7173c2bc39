// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "desk/sheets/lane.h"
#include "logbook/logbook.h"
#include "plot/figure.h"
#include "report/document.h"
#include "report/session_report.h"

namespace ringfall::desk {

/// A shot to listen to; the gain is the same for all.
struct Excerpt {
  std::string setup;
  std::int64_t shot = 0;
  std::vector<float> samples;
  double sample_rate_hz = 0.0;
};

struct NamedFigure {
  std::string name;
  plot::Figure figure;
};

/// Set-ups against each other, ready to be shown.
struct CompareSheet {
  std::uint64_t number = 0;            ///< tells one sheet from the next
  bool with_sound = false;             ///< tones pooled, decays and spectra there; else a first look at the numbers
  report::SessionReport report;
  std::vector<NamedFigure> figures;    ///< dots, differences, decays, spectra, spectrograms, words against numbers
  std::vector<Excerpt> excerpts;       ///< up to four shots a set-up
  report::Document document;           ///< what a page or a paper of it holds
};

/// A first look, from the kept numbers alone; fast. RequestFailure as compare::compare_setups.
std::shared_ptr<const CompareSheet> compare_numbers(const logbook::Logbook& logbook, const std::string& main_number,
                                                    std::uint64_t number);

/// The whole comparison: every kept sound is heard once, some 50 ms a shot. Null when it was cancelled. Fails as compare_numbers.
std::shared_ptr<const CompareSheet> compare_sounds(const logbook::Logbook& logbook, const std::string& main_number,
                                                   std::uint64_t number, Ticket& ticket);

}  // namespace ringfall::desk
