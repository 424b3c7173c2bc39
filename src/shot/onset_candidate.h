// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>

#include "shot/energy_hops.h"
#include "shot/sample_ring.h"

namespace ringfall::shot {

/// One sudden rise of the sound, looked at closely. "Difference" is lagged_difference; powers are without the floor's.
struct Onset {
  double position = 0.0;        ///< of the loud edge, in samples of the stream
  double edge_power = 0.0;      ///< mean square of the difference, first 5 ms: how loud the edge is
  double body_power = 0.0;      ///< mean square of the samples above some 60 Hz, first 30 ms
  double peak = 0.0;            ///< highest |sample| of the first 20 ms
  double brightness_hz = 0.0;   ///< rms frequency of the first 5 ms
  double likeness = 0.0;        ///< 0 .. 1, see shot_likeness
  bool has_quiet_before = true; ///< 50 ms or more were heard before the edge
};

/// How much of the stream after the first hint is needed to look at an onset.
inline constexpr double kOnsetLook_s = 0.090;

/// Looks at the onset that hop `hop` hints at. nullopt: no sudden rise after all.
std::optional<Onset> look_at_onset(const SampleRing& ring, const EnergyHops& hops, std::int64_t hop,
                                   double sample_rate_hz);

/// How shot-like an onset is by itself: it rises at once, most of its edge comes within a few milliseconds, it is no dull
/// thud, its bright part is gone 40 ms later, and it stands far above the quarter second before it (a "t" at the end of a word
/// does not). Speech, footsteps, doors and handling fail one of the five; a key or a clap does not, and is sorted out by its level among the others (select_shots). Figures: docs/measures/shots.md.
struct Course {
  double rise_db = 0.0;          ///< edge power over that of the 20 ms before
  double early_share = 0.0;      ///< of the first 20 ms' difference energy, what comes in the first 4 ms
  double fall_db = 0.0;          ///< difference power of the first 8 ms over that of 40-80 ms
  double brightness_hz = 0.0;    ///< rms frequency of the first 5 ms
  double over_recent_db = 0.0;   ///< edge power over the mean of the 250 ms before, less the floor
};
double shot_likeness(const Course& course);

}  // namespace ringfall::shot
