// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::shot {

/// Measures one shot: levels, loudness, ring-down, tones, hum, ping, buzz, hits and the findings that one clip alone
/// can show. Deterministic, no I/O. `clip` holds the edge and at least 50 ms after it; what the clip is too short for
/// is null with a finding. Definitions: docs/measures.md.
Shot measure_shot(const Clip& clip, const Scale& scale, const MeasureSettings& settings);

}  // namespace ringfall::shot
