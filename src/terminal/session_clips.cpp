// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_clips.h"

#include <algorithm>

#include "intake/clips.h"
#include "intake/kept_clip.h"

namespace ringfall::terminal {

void each_clip(const MeasuredSession& measured, std::size_t block,
               const std::function<void(std::size_t, const shot::Clip&, const shot::Scale&)>& on_clip) {
  const auto& entry = measured.session.blocks[block];
  if (measured.logbook.empty()) {
    const auto& recording = measured.recordings[block];
    intake::clips_of(recording, measured.settings.find,
                     [&](std::size_t shot, const shot::Clip& clip) { on_clip(shot, clip, recording.scale); });
    return;
  }
  const logbook::Logbook book(measured.logbook);
  const shot::Scale scale{book.conditions(entry.session).full_scale_db_spl};
  for (std::size_t shot = 0; shot < entry.shots.size(); ++shot) on_clip(shot, intake::kept_clip(book, entry.shots[shot].id), scale);
}

}  // namespace ringfall::terminal
