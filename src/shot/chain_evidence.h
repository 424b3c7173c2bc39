// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "shot/clip.h"
#include "shot/settings.h"

namespace ringfall::shot {

/// What one clip shows of the recording chain. Small: kept for every shot of a recording, so that faults which
/// only several shots can show (limiter, gain control, cut-offs) can be judged. See chain_findings.h.
struct ChainEvidence {
  /// Mean-square density in dB re full scale^2 per Hz, in twelfth-octave bands from kFineBandLowest_hz upwards to
  /// Nyquist: of the floor before the shot (empty when there is none) and of the first 100 ms from the edge.
  std::vector<float> floor_density_db;
  std::vector<float> shot_density_db;
  std::optional<double> floor_low_db;       ///< 20-100 Hz level before the shot, dB re full scale
  /// Level over the quiet floor before the shot, from 40 ms after the edge in steps of 20 ms: of the octaves from 500 Hz to
  /// 16 kHz the third lowest. A bow or an impact adds to a floor; only the chain takes away. Empty without a floor.
  std::vector<float> over_floor_db;
  double peak_db = 0.0;                     ///< highest |sample| from the edge on, dB re full scale
  double crest_db = 0.0;                    ///< peak over rms of the first 5 ms
  std::optional<double> tail_level_db;      ///< rms level 40-100 ms after the edge, dB re full scale
  std::vector<double> steady_hz;            ///< tones that sounded before the shot already
};

inline constexpr double kFineBandLowest_hz = 22.0;
inline constexpr int kFineBandsPerOctave = 12;

/// Centre frequency of fine band k = 0, 1, ...
double fine_band_centre_hz(std::size_t k);

/// Reads the evidence from a clip; `steady_hz` is left for the tone search to fill.
/// Source: own, docs/measures/chain.md. Tested: shot.ChainEvidence.*
ChainEvidence chain_evidence(const Clip& clip, const MeasureSettings& settings);

}  // namespace ringfall::shot
