// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/logbook_intake.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "audio/sound_bytes.h"
#include "audio/sound_file.h"
#include "base/failure.h"
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

std::int64_t add_missed_shot(logbook::Logbook& logbook, std::int64_t block, double edge_s, const std::optional<std::string>& file) {
  const auto blocks = logbook.blocks();
  const auto kept = std::ranges::find(blocks, block, &logbook::KeptBlock::number);
  if (kept == blocks.end()) throw RequestFailure(fmt::format("there is no block {}", block));
  Recording recording;
  recording.file = file.value_or(kept->file);
  recording.format = audio::open_sound(recording.file)->format();
  recording.channel = kept->channel ? *kept->channel : audio::loudest_channel(recording.file) + 1;
  const double rate_hz = recording.format.sample_rate_hz;
  if (rate_hz != kept->sample_rate_hz) {
    throw RequestFailure(fmt::format("{}: {:g} Hz, but the recording of block {} had {:g} Hz; give the right one", recording.file,
                                     rate_hz, block, kept->sample_rate_hz));
  }
  shot::Event place;
  place.onset_sample = std::llround(edge_s * rate_hz);
  const shot::FindSettings settings;
  for (const auto& other : kept->shots) {
    const auto onset = std::llround(other.shot.onset_s * rate_hz);
    if (onset > place.onset_sample && !place.next_shot_sample) place.next_shot_sample = onset;
  }
  if (place.next_shot_sample && static_cast<double>(*place.next_shot_sample - place.onset_sample) > settings.post_roll_s * rate_hz) {
    place.next_shot_sample.reset();
  }
  recording.places = {place};
  shot::Shot shot;
  shot.onset_s = static_cast<double>(place.onset_sample) / rate_hz;
  std::optional<std::int64_t> id;
  clips_of(recording, settings, [&](std::size_t, const shot::Clip& clip) {
    if (clip.first_sample + static_cast<std::int64_t>(clip.samples.size()) <= place.onset_sample) return;
    id = logbook.add_clip(block, coded(clip, shot, place, exact_in_24_bit(recording.format)));
  });
  if (!id) throw RequestFailure(fmt::format("{}: the recording has ended by {:g} s", recording.file, edge_s));
  logbook.say_missed_shot(block, shot.onset_s, id);
  for (const auto& again : logbook.blocks()) {
    if (again.number != block) continue;
    const auto found = std::ranges::find(again.shots, *id, &logbook::KeptShot::id);
    logbook.set_numbers(*id, remeasured(logbook, again, *found), kVersion);
  }
  return *id;
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
