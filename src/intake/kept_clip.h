// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "logbook/logbook.h"
#include "shot/clip.h"

namespace ringfall::intake {

/// The sound of a shot as the logbook keeps it, with the places in it: what measuring, drawing and listening start from.
/// RequestFailure: no such shot. Damage: the kept bytes are damaged; it names the shot. Any other failure is the machine's. Tested: intake.KeptClip.*, desk.Desk.*
shot::Clip kept_clip(const logbook::Logbook& logbook, std::int64_t shot_id);

/// A shot whose kept sound can't be read whole.
struct DamagedClip {
  std::int64_t shot = 0;  ///< id
  std::int64_t block = 0;
  std::string sentence;
};

/// Decodes the sound of every shot, dropped ones too. LogbookFailure: the machine can't, which says nothing of the sound.
std::vector<DamagedClip> damaged_clips(const logbook::Logbook& logbook);

/// Damage: the sound of a shot can't be decoded; for logbook::import_folder, before it says that all is well.
void need_whole_sounds(const logbook::Logbook& logbook);

}  // namespace ringfall::intake
