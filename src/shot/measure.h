// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "shot/chain_evidence.h"
#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::shot {

/// A shot with what it shows of the recording chain, for judgements over the whole recording.
struct Measured {
  Shot shot;
  ChainEvidence evidence;
};

/// Measures one shot: levels, loudness, ring-down, tones, hum, ping, buzz, hits and the findings that one clip alone
/// can show. Deterministic, no I/O. `clip` holds the edge and at least 50 ms after it; what the clip is too short for
/// is null with a finding. Numbers that a finding voids are already null. Definitions: docs/measures/*.md.
Measured measure_shot(const Clip& clip, const Scale& scale, const MeasureSettings& settings);

/// Sets to null every number that a finding of severity "void" in `findings` names.
void void_numbers(Shot& shot, const std::vector<Finding>& findings);

}  // namespace ringfall::shot
