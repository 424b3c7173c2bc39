// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/logbook_intake.h"

#include <fmt/format.h>

#include "base/failure.h"
#include "base/version.h"
#include "intake/clips.h"
#include "intake/kept_clip.h"
#include "shot/arrow_flight.h"
#include "shot/measure.h"

namespace ringfall::intake {

namespace {

void refuse_double(const logbook::Logbook& logbook, const Recording& recording, const logbook::CodedClip& clip, std::int64_t own_block) {
  const auto there = logbook.place_of(clip);
  if (!there || there->block == own_block) return;
  throw RequestFailure(fmt::format("{}: block {} holds this sound already ('{}', shot {}), and the same shots must not count twice; "
                                   "drop that block first, or move it to another set-up with `ringfall block`",
                                   recording.file, there->block, there->setup, there->shot));
}

}  // namespace

void refuse_kept_sound(const logbook::Logbook& logbook, const Recording& recording, const shot::FindSettings& find) {
  clips_of(recording, find, [&](std::size_t index, const shot::Clip& clip) {
    refuse_double(logbook, recording, coded_clip(clip, recording.shots[index], recording.format), 0);
  });
}

AddedBlock add_recording(logbook::Logbook& logbook, const Recording& recording, const shot::FindSettings& find,
                         const BlockPlace& place) {
  // The look for doubles is inside: another program that adds the same recording at the same moment waits, and is refused then.
  logbook::Transaction whole(logbook.database());
  AddedBlock added;
  added.number = logbook.add_block({place.setup, place.file.empty() ? recording.file : place.file, recording.format.sample_rate_hz, place.note, place.dropped,
                                    recording.findings, place.session, recording.channel});
  clips_of(recording, find, [&](std::size_t index, const shot::Clip& clip) {
    const shot::Shot& shot = recording.shots[index];
    const auto coded = coded_clip(clip, shot, recording.format);
    refuse_double(logbook, recording, coded, added.number);
    added.shots.push_back(logbook.add_clip(added.number, coded));
    logbook.set_numbers(added.shots.back(), shot, kVersion);
  });
  whole.commit();
  return added;
}

shot::Shot remeasured(const logbook::Logbook& logbook, const logbook::KeptBlock& block, const logbook::KeptShot& kept) {
  const auto conditions = logbook.conditions(block.session);
  shot::Shot shot = shot::measure_shot(kept_clip(logbook, kept.id), {conditions.full_scale_db_spl}, {}).shot;
  shot.number = kept.shot.number;
  if (conditions.distance_m && shot.impact_lag_s) {
    shot.arrow_speed_m_s = shot::arrow_speed_m_s(*conditions.distance_m, *shot.impact_lag_s, logbook::reckoned_temperature_c(conditions));
  }
  for (const Finding& finding : kept.shot.findings) {
    if (finding.origin != Origin::clip && !has_finding(shot.findings, finding.code)) shot.findings.push_back(finding);
  }
  shot::void_numbers(shot, shot.findings);
  shot::void_numbers(shot, block.findings);
  return shot;
}

void measure_again(logbook::Logbook& logbook, std::int64_t shot_id) {
  for (const auto& block : logbook.blocks()) {
    for (const auto& kept : block.shots) {
      if (kept.id == shot_id) logbook.set_numbers(shot_id, remeasured(logbook, block, kept), kVersion);
    }
  }
}

logbook::Correction::Kind take_back_correction(logbook::Logbook& logbook, std::int64_t shot_id) {
  using Kind = logbook::Correction::Kind;
  Kind last = Kind::not_a_shot;
  for (const auto& correction : logbook.corrections()) {
    if (correction.shot == shot_id) last = correction.kind;
  }
  if (last == Kind::missed_shot) {
    logbook.remove_missed_shot(shot_id);
    return last;
  }
  logbook.undo_correction(shot_id);
  if (last == Kind::moved_edge) measure_again(logbook, shot_id);
  return last;
}

}  // namespace ringfall::intake
