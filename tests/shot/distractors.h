// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <vector>

namespace ringfall::shot {

/// Chance that is the same on every platform.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : generator_(seed) {}
  std::uint64_t seed() { return generator_(); }
  double between(double low, double high) { return low + (high - low) * unit(); }
  int whole(int low, int high) { return low + static_cast<int>(unit() * (high - low + 1)); }
  double normal(double deviation);

 private:
  double unit() { return (static_cast<double>(generator_() >> 11) + 0.5) * 0x1.0p-53; }
  std::mt19937_64 generator_;
};

/// Sounds of a shooting evening that are no shots, in Pa, levels re 20 uPa. `keep_clear_s`: moments with a shot; only what must
/// not hide one keeps away from them.

/// White floor whose level rises by drift_db over the wave.
void add_floor(std::span<double> wave, double rate_hz, double level_db, double drift_db, Dice& dice);
/// Wind and handling: noise below 150 Hz in gusts, with thumps of 20-80 Hz.
void add_gusts(std::span<double> wave, double rate_hz, double peak_db, Dice& dice);
/// Syllables: voiced (harmonics under three formants), hissed, each third one begun by a plosive burst.
void add_talk(std::span<double> wave, double rate_hz, double peak_db, const std::vector<double>& keep_clear_s, Dice& dice);
/// Footsteps, a door, a quiver or scope put down; 8-30 dB under the shots.
void add_steps(std::span<double> wave, double rate_hz, double shot_peak_db, const std::vector<double>& keep_clear_s,
               Dice& dice);
/// A room: sparse early echoes and a tail of the given reverberation time, added to the sound in place.
void add_room(std::vector<double>& wave, double rate_hz, double reverberation_s, Dice& dice);

}  // namespace ringfall::shot
