// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "shot/ring_score.h"
#include "shot/synthetic_shot.h"
#include "shot/tail_tones.h"

namespace ringfall::shot::testing {

/// Made-up bows between dead and ringing, tones as in the project's notes on the trade (invented, no bow was measured).
inline const std::vector<SyntheticTone> kDeadTones = {
    {95, 72, 0.10}, {170, 66, 0.08}, {1450, 66, 0.05}, {3200, 60, 0.03}};
inline const std::vector<SyntheticTone> kAverageTones = {
    {95, 78, 0.25}, {170, 74, 0.20}, {310, 66, 0.15}, {1450, 72, 0.15}, {3200, 68, 0.10}};
inline const std::vector<SyntheticTone> kRingingTones = {{95, 82, 0.6},    {170, 82, 0.7},   {310, 76, 0.5},
                                                         {1450, 78, 0.45}, {2350, 76, 0.4}, {4100, 70, 0.3}};

struct Scene {
  SyntheticShot shot;
  double rate_hz = 48000.0;
  double floor_db = 35.0;
  double tail_end_s = 0.334;
  double room_db = 0.0;          ///< room-like decaying noise in all bands: rms level at the edge; 0: none
  double room_ring_time_s = 0.5;
  double steady_hz = 0.0;        ///< a tone that sounds all the time; 0: none
  double steady_db = 60.0;
};

inline Scene scene_of(const std::vector<SyntheticTone>& tones) {
  Scene scene;
  scene.shot.tones = tones;
  return scene;
}

struct Heard {
  TailTones tail;
  RingScore hum, ping;
};

inline constexpr double kOnset_s = 0.80003;  // between two samples at every rate

std::vector<double> sound_of(const Scene& scene, std::uint64_t seed);
TailSound tail_of(const Scene& scene, std::uint64_t seed);
Heard hear(const Scene& scene, std::uint64_t seed);

/// The scene's tones of one family as Ringfall should describe them.
std::vector<Tone> true_tones(const Scene& scene, ToneFamily family);
double true_score(const Scene& scene, ToneFamily family);

/// The tone nearest to f within 1 %, or nullptr.
const Tone* nearest(const std::vector<Tone>& tones, double frequency_hz);

}  // namespace ringfall::shot::testing
