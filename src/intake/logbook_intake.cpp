// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/logbook_intake.h"

#include "audio/sound_bytes.h"
#include "base/version.h"
#include "intake/clips.h"
#include "shot/arrow_flight.h"
#include "shot/measure.h"

namespace ringfall::intake {
namespace {

/// Is every sample a 24-bit integer over 2^23?
bool exact_in_24_bit(const audio::SoundFormat& format) {
  return format.integer_samples && !format.lossy && format.bits > 0 && format.bits <= 24;
}

logbook::CodedClip coded(const shot::Clip& clip, const shot::Shot& shot, const shot::Event& place, bool flac) {
  logbook::CodedClip result{shot.number, shot.onset_s, flac ? "flac" : "wav", {}, clip};
  result.bytes = audio::sound_bytes(clip.samples, clip.sample_rate_hz,
                                    flac ? audio::SampleCoding::flac_24_bit : audio::SampleCoding::wav_float);
  result.places.samples.clear();
  result.places.next_shot_sample = place.next_shot_sample;
  return result;
}

}  // namespace

AddedBlock add_recording(logbook::Logbook& logbook, const Recording& recording, const shot::FindSettings& find,
                         const BlockPlace& place) {
  AddedBlock added;
  added.number = logbook.add_block({place.setup, recording.file, recording.format.sample_rate_hz, place.note, place.dropped,
                                    recording.findings, place.session, recording.channel});
  const bool flac = exact_in_24_bit(recording.format);
  clips_of(recording, find, [&](std::size_t index, const shot::Clip& clip) {
    const shot::Shot& shot = recording.shots[index];
    added.shots.push_back(logbook.add_clip(added.number, coded(clip, shot, recording.places[index], flac)));
    logbook.set_numbers(added.shots.back(), shot, kVersion);
  });
  return added;
}

shot::Shot remeasured(const logbook::Logbook& logbook, const logbook::KeptBlock& block, const logbook::KeptShot& kept) {
  const auto stored = logbook.clip(kept.id);
  const auto conditions = logbook.conditions(block.session);
  shot::Clip clip = stored.places;
  clip.samples = audio::samples_of_bytes(stored.bytes);
  shot::Shot shot = shot::measure_shot(clip, {conditions.full_scale_db_spl}, {}).shot;
  shot.number = stored.number;
  if (conditions.distance_m && shot.impact_lag_s) {
    shot.arrow_speed_m_s = shot::arrow_speed_m_s(*conditions.distance_m, *shot.impact_lag_s, conditions.temperature_c);
  }
  for (const Finding& finding : kept.shot.findings) {
    if (!has_finding(shot.findings, finding.code)) shot.findings.push_back(finding);
  }
  shot::void_numbers(shot, shot.findings);
  shot::void_numbers(shot, block.findings);
  return shot;
}

}  // namespace ringfall::intake
