// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_sounds.h"

#include "audio/sound_bytes.h"
#include "base/units.h"
#include "report/excerpt.h"
#include "report/typical_shot.h"
#include "terminal/session_clips.h"

namespace ringfall::terminal {
namespace {

/// A clip to listen to, before the gain.
struct Cutting {
  report::SoundClip clip;
  std::vector<float> samples;
  double sample_rate_hz = 0.0;
};

void finish_clips(std::vector<Cutting>& cuttings, SessionSounds& result) {
  std::vector<std::vector<float>> excerpts;
  for (const Cutting& cutting : cuttings) excerpts.push_back(cutting.samples);
  result.clip_gain_db = report::common_gain_db(excerpts);
  const auto gain = static_cast<float>(db_to_amplitude(result.clip_gain_db));
  for (Cutting& cutting : cuttings) {
    for (float& sample : cutting.samples) sample *= gain;
    cutting.clip.flac = audio::sound_bytes(cutting.samples, cutting.sample_rate_hz, audio::SampleCoding::flac_24_bit);
    result.clips.push_back(std::move(cutting.clip));
  }
}

}  // namespace

SessionSounds session_sounds(const MeasuredSession& measured, const shot::Number& main_number) {
  SessionSounds result;
  std::vector<Cutting> cuttings;
  const auto& session = measured.session;
  for (const auto& setup : session.setups()) {
    report::SetUpEar ear(setup, measured.settings.measure);
    const auto typical = report::typical_shot(session, setup, main_number);
    for (std::size_t block = 0; block < session.blocks.size(); ++block) {
      const auto& entry = session.blocks[block];
      if (entry.setup != setup || !entry.dropped.empty()) continue;
      each_clip(measured, block, [&](std::size_t index, const shot::Clip& clip, const shot::Scale& scale) {
        const auto& shot = entry.shots[index].shot;
        ear.add(clip, shot, scale);
        if (!typical || typical->block != block || typical->shot != index) return;
        ear.add_typical(clip, shot, scale, entry.file);
        cuttings.push_back({{setup, entry.file, shot.number, {}}, report::excerpt_of(clip), clip.sample_rate_hz});
      });
    }
    result.sounds.push_back(ear.sound());
  }
  finish_clips(cuttings, result);
  return result;
}

std::vector<report::RecordingFacts> recording_facts(const MeasuredSession& measured) {
  if (!measured.logbook.empty()) return report::kept_recordings(measured.session);
  std::vector<report::RecordingFacts> facts;
  for (std::size_t k = 0; k < measured.recordings.size(); ++k) {
    const auto& recording = measured.recordings[k];
    facts.push_back({measured.session.blocks[k].file, recording.format.description, recording.format.sample_rate_hz,
                     recording.channel, recording.format.channels, recording.duration_s,
                     recording.scale.full_scale_db_spl.has_value()});
  }
  return facts;
}

}  // namespace ringfall::terminal
