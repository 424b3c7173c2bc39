// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

#include "logbook/logbook.h"
#include "shot/clip.h"

namespace ringfall::intake {

/// The sound of a shot as the logbook keeps it, with the places in it: what measuring, drawing and listening start from.
/// RequestFailure: no such shot. FileFailure: the kept bytes are no sound. Tested: intake.LogbookIntake.*, desk.Desk.*
shot::Clip kept_clip(const logbook::Logbook& logbook, std::int64_t shot_id);

}  // namespace ringfall::intake
