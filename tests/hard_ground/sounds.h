// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <vector>

namespace ringfall::hard_ground {

/// Equal seeds give equal values on every platform.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : generator_(seed * 0x9E3779B97F4A7C15ULL + 12345) {}
  double uniform() { return (static_cast<double>(generator_() >> 11) + 0.5) * 0x1.0p-53; }
  double between(double low, double high) { return low + (high - low) * uniform(); }
  double normal();

 private:
  std::mt19937_64 generator_;
};

/// Response of a box-shaped room from one place to another (image sources: Allen and Berkley 1979), direct sound at sample 0 with
/// gain 1; equal walls whose absorption gives the 60 dB time by Eyring's formula.
struct Point { double x, y, z; };
std::vector<double> room_response(const Point& room_m, const Point& source_m, const Point& microphone_m, double decay_s,
                                  double rate_hz);

/// The first values of the convolution, as many as `wave` has.
std::vector<double> convolved(std::span<const double> wave, std::span<const double> response);

/// Noise that falls by slope_db an octave above 40 Hz, A-weighted level given [Pa].
std::vector<double> background(std::size_t length, double rate_hz, double level_db, double slope_db, Dice& dice);

/// A voice: pulses at 100 to 220 Hz through three resonances, in syllables [Pa]; starts at begin_s.
void add_talk(std::span<double> wave, double rate_hz, double begin_s, double level_db, Dice& dice);

/// Cloth and arrow on the rest: noise from 600 Hz to 7 kHz in short strokes, from begin_s to end_s.
void add_rustle(std::span<double> wave, double rate_hz, double begin_s, double end_s, double level_db, Dice& dice);

/// Gain falls within 4 ms to at most depth_db when the level is over the threshold and comes back with the release's time constant.
void ride_gain(std::span<double> wave, double rate_hz, double threshold_pa, double depth_db, double release_s);

/// No sample over the ceiling: the gain is taken down ahead of it and comes back within 80 ms.
void limit(std::span<double> wave, double rate_hz, double ceiling_pa);

/// What coding with losses does to a wave: overlapping blocks of 1024, each third-octave's values rounded to about 18 dB, nothing
/// above 16 kHz. A model: it rounds flat tops as real coders do (docs/measures/chain.md says how it compares).
void code_with_losses(std::span<double> wave, double rate_hz);

/// Keeps what lies below (or above, second order) a frequency.
void low_pass(std::span<double> wave, double rate_hz, double corner_hz);
void low_cut(std::span<double> wave, double rate_hz, double corner_hz);

}  // namespace ringfall::hard_ground
