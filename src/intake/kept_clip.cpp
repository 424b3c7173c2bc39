// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/kept_clip.h"

#include <fmt/format.h>

#include "audio/sound_bytes.h"
#include "base/failure.h"
#include "base/text.h"

namespace ringfall::intake {
namespace {

/// Is there something to measure at the place of the edge?
bool holds_its_edge(const shot::Clip& clip) {
  const auto edge = clip.onset_sample - clip.first_sample;
  return edge >= 0 && edge < static_cast<std::int64_t>(clip.samples.size());
}

}  // namespace

shot::Clip kept_clip(const logbook::Logbook& logbook, std::int64_t shot_id) {
  const auto stored = logbook.clip(shot_id);
  shot::Clip clip = stored.places;
  const auto damaged = [&](const std::string& why) {
    return logbook::Damage(fmt::format("{}: the kept sound of shot {} is damaged ({}); keep this file as it is and go on with your last "
                                      "copy of it, or leave the shot out with `ringfall drop`", logbook.path(), shot_id, why));
  };
  try {
    clip.samples = audio::samples_of_bytes(stored.bytes);
  } catch (const FileFailure&) {
    throw damaged(stored.coding + " can't be read whole");
  }
  if (!holds_its_edge(clip)) throw damaged("its loud edge is not in it");
  return clip;
}

std::vector<DamagedClip> damaged_clips(const logbook::Logbook& logbook) {
  std::vector<DamagedClip> damaged;
  for (const auto& block : logbook.blocks()) {
    for (const auto& kept : block.shots) {
      try {
        kept_clip(logbook, kept.id);
      } catch (const logbook::Damage& failure) {
        damaged.push_back({kept.id, block.number, failure.what()});
      }
    }
  }
  return damaged;
}

void need_whole_sounds(const logbook::Logbook& logbook) {
  const auto damaged = damaged_clips(logbook);
  if (damaged.empty()) return;
  throw logbook::Damage(fmt::format("the sound of {} in the export is damaged (the first is shot {}), and no logbook is made of it; export the "
                                    "logbook again", counted(damaged.size(), "shot"), damaged.front().shot));
}

}  // namespace ringfall::intake
