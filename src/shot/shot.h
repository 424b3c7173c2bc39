// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "base/finding.h"

namespace ringfall::shot {

/// Everything measured of one shot. Times in s, frequencies in Hz, levels in dB.
/// Levels are re 20 uPa when the chain is calibrated, else re full scale (full-scale square wave = 0 dB);
/// nullopt means "could not be had honestly" and a finding says why. Definitions: docs/measures/

/// A separate attack within 80 ms of the loud edge (string on limb, bracer, stop).
struct Hit {
  double lag_s = 0.0;     ///< after the loud edge, 0 for the edge itself
  std::optional<double> level_db;  ///< highest |sample| of the attack
};

struct Levels {
  std::optional<double> peak_db;           ///< highest |sample|, Z weighting
  std::optional<double> exposure_db;       ///< A-weighted sound exposure level of the shot window
  std::optional<double> exposure_z_db;     ///< the same, Z
  std::optional<double> exposure_high_db;  ///< the same, 2 kHz to 16 kHz, unweighted
  std::optional<double> fast_max_db;       ///< A-weighted, F time weighting, maximum
  std::optional<double> loudness_sone;     ///< maximum of time-varying loudness, ISO 532-1
  std::optional<double> sharpness_acum;    ///< DIN 45692
  std::optional<double> floor_db;          ///< A-weighted equivalent level before the shot
};

struct BandDecay {
  double centre_hz = 0.0;  ///< nominal octave mid-band frequency
  std::optional<double> late_s;
  std::optional<double> range_db;
};

struct RingDown {
  std::optional<double> early_s;      ///< A-weighted, 60 dB time from the first 10 dB of decay
  std::optional<double> late_s;       ///< A-weighted, 60 dB time from -5 to -25 dB (or less: range_db)
  std::optional<double> early_z_s;    ///< unweighted
  std::optional<double> late_z_s;     ///< unweighted
  std::optional<double> range_db;     ///< range above the noise that the A-weighted late fit used
  std::optional<double> to_20_db_s;   ///< from the edge until the level stays 20 dB below its maximum
  std::vector<BandDecay> bands;       ///< octaves, unweighted
};

enum class ToneFamily { hum, mid, ping };

struct Tone {
  double frequency_hz = 0.0;
  double level_db = 0.0;     ///< rms level at the start of the tail
  double ring_time_s = 0.0;  ///< its own 60 dB time
  double damping_ratio = 0.0;
  ToneFamily family = ToneFamily::mid;
};

struct Buzz {
  double modulation_db = 0.0;  ///< peak over median of the modulation spectrum
  double rate_hz = 0.0;
};

/// The three parts behind a hum or ping score.
struct ScoreParts {
  std::optional<double> strength_db;  ///< power sum of the family's tones at the start of the tail
  std::optional<double> ring_time_s;  ///< of the family's strongest tone
  std::optional<double> pitch_hz;     ///< of the family's strongest tone
};

struct Shot {
  int number = 0;          ///< in time order, from 1
  double onset_s = 0.0;    ///< the loud edge, from the recording's first sample
  std::optional<double> tail_end_s;  ///< from the recording's first sample; where the measured tail stops. None: not measured
  std::optional<double> impact_lag_s;
  std::optional<double> arrow_speed_m_s;
  std::vector<Hit> hits;
  Levels levels;
  RingDown ring_down;
  std::vector<Tone> tones;  ///< strongest first
  std::optional<double> hum;   ///< 0 .. 10
  std::optional<double> ping;  ///< 0 .. 10
  /// Where hum or ping is null or may have missed a ring: the most that could hide in this shot, 0 .. 10.
  std::optional<double> hum_at_most;
  std::optional<double> ping_at_most;
  std::optional<double> hum_tail_db;   ///< level of the hum band in the fixed tail window, floor removed
  std::optional<double> ping_tail_db;  ///< the same, ping band
  ScoreParts hum_parts;
  ScoreParts ping_parts;
  std::optional<Buzz> buzz;
  std::vector<Finding> findings;
};

}  // namespace ringfall::shot
