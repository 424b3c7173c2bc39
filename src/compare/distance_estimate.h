// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/units.h"

namespace ringfall::compare {

/// What is reckoned with where nobody said how damp the air was.
inline constexpr double kAssumedHumidity_percent = 50.0;

/// The air between bow and listener.
struct Air {
  double temperature_c = kAssumedTemperature_c;  ///< -20 .. 50
  double humidity_percent = kAssumedHumidity_percent;  ///< relative, 10 .. 100
  double pressure_kpa = 101.325; ///< under 200
};

/// Attenuation of a pure tone by the air, dB per metre.
/// Source: ISO 9613-1:1993 equations (3) to (5) and annex B; accuracy +-10 % where frequency over pressure is 4e-4 to 10 Hz/Pa (clause 7,
/// from memory), that is 40 Hz to 1 MHz at sea level; its Table 1 ends at 10 kHz. Cost: nothing.
/// Tested: compare.Distance.* against Table 1 of it and Table 2 of ISO 9613-2:1996.
double air_absorption_db_per_m(double frequency_hz, const Air& air);

/// Level of one octave band, nominal mid-band frequency 63 .. 16000 Hz.
struct OctaveLevel {
  double nominal_hz = 0.0;
  double level_db = 0.0;  ///< unweighted
};

/// What is to be estimated.
struct DistanceQuestion {
  std::vector<OctaveLevel> at_mark;  ///< any of the nine octaves, one each
  double mark_m = 1.0;               ///< distance of the microphone from the grip
  Air air;
  std::optional<double> arrow_speed_m_s;
};

/// What arrives at a distance (from the grip, in still air over a free field).
struct DistanceEstimate {
  double distance_m = 0.0;
  std::vector<OctaveLevel> bands;
  double level_a_db = 0.0;       ///< A-weighted sum of the bands
  double level_z_db = 0.0;       ///< unweighted sum
  /// Sum of the octaves 2 to 16 kHz that there are: where deer hear well (trade notes), no "deer level". nullopt: there is none.
  std::optional<double> level_high_db;
  std::optional<double> high_to_hz;  ///< the highest of them; below 16000: the sample rate holds no more
  double spreading_db = 0.0;     ///< 20 lg(distance / mark)
  double lost_in_air_a_db = 0.0; ///< of the A-weighted level, beyond spreading
  double sound_s = 0.0;          ///< after the loud edge
  std::optional<double> arrow_s; ///< distance over speed; the arrow slows down, so it is later
};

/// Level(r) = level(mark) - 20 lg(r / mark) - absorption(exact mid-band frequency) (r - mark), band by band; A weighting of
/// IEC 61672-1 Table 3 at the mid-bands. distance_m >= mark_m. nullopt: there is no band. Not modelled: see not_modelled().
/// Tested: compare.Distance.*
std::optional<DistanceEstimate> estimate_at(const DistanceQuestion& question, double distance_m);

/// What can make it several dB otherwise.
std::vector<std::string> not_modelled();
/// What must stand beside such numbers.
std::vector<std::string> hunting_cautions();

}  // namespace ringfall::compare
