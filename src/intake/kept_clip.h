// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "logbook/logbook.h"
#include "shot/clip.h"

namespace ringfall::intake {

/// The sound of a shot as the logbook keeps it, with the places in it: what measuring, drawing and listening start from.
/// RequestFailure: no such shot. LogbookFailure: the kept bytes are damaged; it names the shot. Tested: intake.KeptClip.*, desk.Desk.*
shot::Clip kept_clip(const logbook::Logbook& logbook, std::int64_t shot_id);

/// A shot whose kept sound can't be read whole.
struct DamagedClip {
  std::int64_t shot = 0;  ///< id
  std::int64_t block = 0;
  std::string sentence;
};

/// Decodes the sound of every shot, dropped ones too.
std::vector<DamagedClip> damaged_clips(const logbook::Logbook& logbook);

}  // namespace ringfall::intake
