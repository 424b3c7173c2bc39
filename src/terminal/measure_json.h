// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "intake/recording.h"
#include "report/json_text.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::terminal {

/// One shot of it.
report::Json shot_json(const shot::Shot& shot);

/// The machine-readable output of `measure`: one JSON object, field names with units, null where a value can't be had.
/// Fields may be added, never renamed or removed (docs/output.md). Ends with a newline.
std::string measure_json(const std::vector<intake::Recording>& recordings, const shot::Settings& settings);

}  // namespace ringfall::terminal
