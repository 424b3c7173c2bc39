// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/session_sounds.h"

#include <algorithm>
#include <cmath>

#include "audio/sound_bytes.h"
#include "base/units.h"
#include "intake/clips.h"
#include "report/typical_shot.h"

namespace ringfall::terminal {
namespace {

constexpr double kClipBegin_s = -0.15;
constexpr double kClipEnd_s = 0.85;
constexpr double kFade_s = 0.010;
constexpr double kLoudest_db = -1.0;

/// A clip to listen to, before the gain.
struct Cutting {
  report::SoundClip clip;
  std::vector<float> samples;
  double sample_rate_hz = 0.0;
};

std::vector<float> cut_out(const shot::Clip& clip) {
  const auto size = static_cast<std::int64_t>(clip.samples.size());
  const auto place = [&](double seconds) {
    return std::clamp<std::int64_t>(clip.onset_sample - clip.first_sample + std::llround(seconds * clip.sample_rate_hz), 0, size);
  };
  std::vector<float> samples(clip.samples.begin() + place(kClipBegin_s), clip.samples.begin() + place(kClipEnd_s));
  // Cut sound clicks at its ends.
  const std::size_t fade = std::min(samples.size() / 2, static_cast<std::size_t>(kFade_s * clip.sample_rate_hz));
  for (std::size_t k = 0; k < fade; ++k) {
    const float gain = static_cast<float>(k) / static_cast<float>(fade);
    samples[k] *= gain;
    samples[samples.size() - 1 - k] *= gain;
  }
  return samples;
}

void finish_clips(std::vector<Cutting>& cuttings, SessionSounds& result) {
  float peak = 0.0F;
  for (const Cutting& cutting : cuttings) {
    for (const float sample : cutting.samples) peak = std::max(peak, std::abs(sample));
  }
  if (!(peak > 0.0F)) return;
  result.clip_gain_db = kLoudest_db - amplitude_to_db(static_cast<double>(peak));
  const auto gain = static_cast<float>(db_to_amplitude(result.clip_gain_db));
  for (Cutting& cutting : cuttings) {
    for (float& sample : cutting.samples) sample *= gain;
    cutting.clip.wav = audio::sound_bytes(cutting.samples, cutting.sample_rate_hz, audio::SampleCoding::wav_16_bit);
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
      const auto& recording = measured.recordings[block];
      intake::clips_of(recording, measured.settings.find, [&](std::size_t index, const shot::Clip& clip) {
        const auto& shot = entry.shots[index].shot;
        ear.add(clip, shot, recording.scale);
        if (!typical || typical->block != block || typical->shot != index) return;
        ear.add_typical(clip, shot, recording.scale, entry.file);
        cuttings.push_back({{setup, entry.file, shot.number, {}}, cut_out(clip), clip.sample_rate_hz});
      });
    }
    result.sounds.push_back(ear.sound());
  }
  finish_clips(cuttings, result);
  return result;
}

std::vector<report::RecordingFacts> recording_facts(const MeasuredSession& measured) {
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
