// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/session_options.h"

namespace ringfall::intake {

shot::Scale scale_of(const logbook::Conditions& conditions) { return {conditions.full_scale_db_spl}; }

RecordingOptions options_of(const logbook::Conditions& conditions) {
  RecordingOptions options;
  options.scale = scale_of(conditions);
  options.settings.find.distance_m = conditions.distance_m;
  options.settings.find.temperature_c = logbook::reckoned_temperature_c(conditions);
  return options;
}

}  // namespace ringfall::intake
