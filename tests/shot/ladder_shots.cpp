// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/ladder_shots.h"

#include <cmath>
#include <numbers>

namespace ringfall::shot::testing {

std::vector<double> sound_of(const Scene& scene, std::uint64_t seed) {
  std::vector<double> sound(static_cast<std::size_t>(1.6 * scene.rate_hz), 0.0);
  add_synthetic_shot(sound, scene.rate_hz, kOnset_s, scene.shot, seed);
  add_white_noise(sound, scene.floor_db, seed + 1000000);
  if (scene.room_db > 0.0) {
    std::vector<double> room(sound.size(), 0.0);
    add_white_noise(room, scene.room_db, seed + 2000000);
    for (std::size_t n = 0; n < room.size(); ++n) {
      const double t = static_cast<double>(n) / scene.rate_hz - kOnset_s;
      if (t >= 0.0) sound[n] += room[n] * std::exp(-3.0 * std::numbers::ln10 * t / scene.room_ring_time_s);
    }
  }
  if (scene.steady_hz > 0.0) {
    const double amplitude = 20e-6 * std::numbers::sqrt2 * std::pow(10.0, 0.05 * scene.steady_db);
    for (std::size_t n = 0; n < sound.size(); ++n)
      sound[n] += amplitude * std::cos(2.0 * std::numbers::pi * scene.steady_hz * static_cast<double>(n) / scene.rate_hz +
                                       static_cast<double>(seed));
  }
  return sound;
}

TailSound tail_of(const Scene& scene, std::uint64_t seed) {
  return cut_tail(sound_of(scene, seed), scene.rate_hz, kOnset_s * scene.rate_hz, scene.tail_end_s, MeasureSettings{});
}

Heard hear(const Scene& scene, std::uint64_t seed) {
  const MeasureSettings settings;
  Heard heard;
  heard.tail = find_tones(tail_of(scene, seed), settings);
  heard.hum = ring_score(ToneFamily::hum, heard.tail.tones, heard.tail, settings);
  heard.ping = ring_score(ToneFamily::ping, heard.tail.tones, heard.tail, settings);
  return heard;
}

std::vector<Tone> true_tones(const Scene& scene, ToneFamily family) {
  const MeasureSettings settings;
  std::vector<Tone> tones;
  for (const SyntheticTone& tone : scene.shot.tones)
    if (family_of(tone.frequency_hz, settings) == family)
      tones.push_back({tone.frequency_hz, tone.level_db - 60.0 * tail_start_s(family, settings) / tone.ring_time_s,
                       tone.ring_time_s, 0.0, family});
  return tones;
}

double true_score(const Scene& scene, ToneFamily family) {
  return score_of(ring_amount(true_tones(scene, family), family, MeasureSettings{}));
}

const Tone* nearest(const std::vector<Tone>& tones, double frequency_hz) {
  const Tone* best = nullptr;
  for (const Tone& tone : tones) {
    const double off = std::abs(tone.frequency_hz - frequency_hz);
    if (off <= 0.01 * frequency_hz && (!best || off < std::abs(best->frequency_hz - frequency_hz))) best = &tone;
  }
  return best;
}

}  // namespace ringfall::shot::testing
