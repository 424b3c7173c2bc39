// SPDX-License-Identifier: GPL-3.0-or-later
#include "intake/clips.h"

#include <algorithm>
#include <cmath>
#include <deque>

#include "audio/channel_reader.h"
#include "audio/sound_bytes.h"

namespace ringfall::intake {
namespace {

struct Wanted {
  std::size_t index;
  std::int64_t begin;
  std::int64_t end;
  shot::Clip clip;
};

Wanted wanted_clip(const Recording& recording, std::size_t index, const shot::FindSettings& settings) {
  const shot::Event& place = recording.places[index];
  const double rate_hz = recording.format.sample_rate_hz;
  Wanted wanted;
  wanted.index = index;
  wanted.begin = std::max<std::int64_t>(0, place.onset_sample - std::llround(settings.pre_roll_s * rate_hz));
  wanted.end = place.onset_sample + std::llround(settings.post_roll_s * rate_hz);
  wanted.clip.sample_rate_hz = rate_hz;
  wanted.clip.first_sample = wanted.begin;
  wanted.clip.onset_sample = place.onset_sample;
  wanted.clip.onset_fraction = place.onset_fraction;
  wanted.clip.impact_sample = place.impact_sample;
  wanted.clip.next_shot_sample = place.next_shot_sample;
  return wanted;
}

/// Appends what of the block (its first sample at `position`) belongs to the clip.
void take(Wanted& wanted, std::span<const float> block, std::int64_t position) {
  const auto size = static_cast<std::int64_t>(block.size());
  const std::int64_t begin = std::clamp<std::int64_t>(wanted.begin - position, 0, size);
  const std::int64_t end = std::clamp<std::int64_t>(wanted.end - position, begin, size);
  const auto part = block.subspan(static_cast<std::size_t>(begin), static_cast<std::size_t>(end - begin));
  wanted.clip.samples.insert(wanted.clip.samples.end(), part.begin(), part.end());
}

/// Is every sample a 24-bit integer over 2^23?
bool exact_in_24_bit(const audio::SoundFormat& format) {
  return format.integer_samples && !format.lossy && format.bits > 0 && format.bits <= 24;
}

}  // namespace

logbook::CodedClip coded_clip(const shot::Clip& clip, const shot::Shot& shot, const audio::SoundFormat& format) {
  const bool flac = exact_in_24_bit(format);
  logbook::CodedClip coded{shot.number, shot.onset_s, flac ? "flac" : "wav", {}, clip};
  coded.bytes = audio::sound_bytes(clip.samples, clip.sample_rate_hz,
                                   flac ? audio::SampleCoding::flac_24_bit : audio::SampleCoding::wav_float);
  coded.places.samples.clear();
  return coded;
}

void clips_of(const Recording& recording, const shot::FindSettings& settings,
              const std::function<void(std::size_t, const shot::Clip&)>& on_clip) {
  if (recording.places.empty()) return;
  audio::ChannelReader reader(audio::open_sound(recording.file), recording.channel - 1);
  std::deque<Wanted> open;
  std::size_t next = 0;
  std::int64_t position = 0;
  std::vector<float> block(1U << 16U);
  while (next < recording.places.size() || !open.empty()) {
    const std::size_t got = reader.read(block);
    const auto heard = std::span<const float>(block).first(got);
    const std::int64_t after = position + static_cast<std::int64_t>(got);
    while (next < recording.places.size()) {
      Wanted wanted = wanted_clip(recording, next, settings);
      if (got != 0 && wanted.begin >= after) break;
      open.push_back(std::move(wanted));
      ++next;
    }
    for (Wanted& wanted : open) take(wanted, heard, position);
    while (!open.empty() && (got == 0 || open.front().end <= after)) {
      if (!open.front().clip.samples.empty()) on_clip(open.front().index, open.front().clip);
      open.pop_front();
    }
    position = after;
    if (got == 0) return;
  }
}

}  // namespace ringfall::intake
