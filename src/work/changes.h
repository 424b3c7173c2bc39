// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "logbook/entries.h"

namespace ringfall::work {

/// What a person says of a bow, a set-up or a session; what is not said stays as it is.

/// A change of a number that may also be taken away.
using NumberChange = std::optional<std::optional<double>>;

struct FittingsChange {
  NumberChange draw_weight_n;
  NumberChange brace_height_m;
  NumberChange arrow_mass_kg;
  std::optional<std::string> string;
  std::optional<std::string> silencers;
  std::optional<std::vector<logbook::Part>> parts;
};

/// Full-scale level from a recording of a sound calibrator.
struct CalibrationRequest {
  std::optional<std::string> file;
  double calibrator_db = 94.0;
};

struct SessionChange {
  std::optional<std::string> started_at;  ///< UTC, ISO 8601
  std::optional<std::string> place;
  NumberChange distance_m;
  NumberChange temperature_c;
  NumberChange humidity_percent;
  std::optional<std::string> chain;
  std::optional<std::string> microphone;
  std::optional<std::string> device;
  NumberChange full_scale_db_spl;
  NumberChange check_tone_db;
  std::optional<bool> blind;
  std::optional<std::string> note;
  CalibrationRequest calibration;
};

/// Puts what was said into what is there.
void apply(const FittingsChange& change, logbook::Fittings& fittings);
/// A calibration recording is read here (FileFailure when it is of no use); a new full-scale level goes before the old one.
void apply(const SessionChange& change, logbook::Conditions& conditions);

template <typename Value>
void apply(const std::optional<Value>& change, Value& value) {
  if (change) value = *change;
}

}  // namespace ringfall::work
