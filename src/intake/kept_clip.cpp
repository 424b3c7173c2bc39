// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/kept_clip.h"

#include "audio/sound_bytes.h"

namespace ringfall::intake {

shot::Clip kept_clip(const logbook::Logbook& logbook, std::int64_t shot_id) {
  const auto stored = logbook.clip(shot_id);
  shot::Clip clip = stored.places;
  clip.samples = audio::samples_of_bytes(stored.bytes);
  return clip;
}

}  // namespace ringfall::intake
