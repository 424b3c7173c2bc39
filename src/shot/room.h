// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "base/finding.h"
#include "shot/clip.h"
#include "shot/settings.h"
#include "shot/shot.h"

namespace ringfall::shot {

/// How the target impact dies away, octave by octave: what the room adds to everything heard in it.
/// Same order as signal::octave_bands(). Empty without an impact or with less than 200 ms of sound after it.
std::vector<std::optional<double>> impact_decay_s(const Clip& clip, const MeasureSettings& settings);

/// One shot's octave decays beside those of its impact.
struct RoomEvidence {
  std::vector<std::optional<double>> impact_s;
  std::vector<std::optional<double>> shot_s;
};

/// `room_limited`: in most octaves from 500 Hz to 4 kHz where both are known, the shot rings less than 1.3 times as long as
/// the impact, and the impact rings longer than a butt in the open does: what was measured is the room.
/// Source: own (ratio: trade.md practice, no source), docs/measures/ring_down.md#room. Tested: shot.Room.*
std::optional<Finding> judge_room(std::span<const RoomEvidence> shots);

}  // namespace ringfall::shot
