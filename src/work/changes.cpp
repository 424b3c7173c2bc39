// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/changes.h"

#include "intake/calibration.h"

namespace ringfall::work {

void apply(const FittingsChange& change, logbook::Fittings& fittings) {
  apply(change.draw_weight_n, fittings.draw_weight_n);
  apply(change.brace_height_m, fittings.brace_height_m);
  apply(change.arrow_mass_kg, fittings.arrow_mass_kg);
  apply(change.string, fittings.string);
  apply(change.silencers, fittings.silencers);
  apply(change.parts, fittings.parts);
}

void apply(const SessionChange& change, logbook::Conditions& conditions) {
  apply(change.started_at, conditions.started_at);
  apply(change.place, conditions.place);
  apply(change.distance_m, conditions.distance_m);
  apply(change.temperature_c, conditions.temperature_c);
  apply(change.humidity_percent, conditions.humidity_percent);
  apply(change.chain, conditions.chain);
  apply(change.microphone, conditions.microphone);
  apply(change.device, conditions.device);
  apply(change.full_scale_db_spl, conditions.full_scale_db_spl);
  apply(change.check_tone_db, conditions.check_tone_db);
  apply(change.blind, conditions.blind);
  apply(change.note, conditions.note);
  if (!change.calibration.file) return;
  const auto calibration = intake::calibrate(*change.calibration.file, change.calibration.calibrator_db, std::nullopt);
  conditions.full_scale_db_spl = calibration.full_scale_db_spl;
}

}  // namespace ringfall::work
