// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "base/units.h"
#include "signal/loudness_bands.h"

namespace ringfall::signal {

/// Mean square at 0 dB, Pa^2.
inline constexpr double kReferencePower_pa2 = kReferencePressure_pa * kReferencePressure_pa;

enum class SoundField { free, diffuse };

/// Core loudness [sone/Bark] of the 20 critical bands.
using CoreLoudness = std::array<double, kCriticalBands>;

/// Core loudness of a third-octave spectrum: low bands reduced by their level and summed, transmission of the ear,
/// threshold, compression: 0.0635 * 10^(0.025 LTQ) * ((3/4 + 1/4 * 10^(0.1 (L - LTQ)))^(1/4) - 1).
/// In   mean squares in Pa^2, >= 0. The tables' levels are made powers once, so no logarithm is taken, and the
///      1e-12 Pa^2 with which the standard keeps silence from it are left out (-26 dB, far below threshold).
/// Source: ISO 532-1:2017 5.3 to 5.5, Tables A.3 to A.7. The last column of reductions holds for all higher levels.
/// Tested: signal.Loudness.* (test signal 1 of Annex B.2), signal.LoudnessTwin.*
class CoreLoudnessOf {
 public:
  explicit CoreLoudnessOf(SoundField field);
  CoreLoudness operator()(const BandPowers& power) const;

 private:
  std::array<std::array<double, kReducedBands>, 7> switch_at_{};  ///< power above which the next reduction holds
  std::array<std::array<double, kReducedBands>, 8> reduction_{};  ///< factors on the power
  std::array<double, kCriticalBands> threshold_{};  ///< of power at the microphone
  std::array<double, kCriticalBands> excitation_{};  ///< 1/4 of power over power at threshold, after the adaptations
  std::array<double, kCriticalBands> scale_{};
};

/// Non-linear decay of core loudness after a sound has gone, in place, one frame each 0.5 ms: each band follows a rise
/// at once and falls like the two capacitors behind a diode (5, 15 and 75 ms), slower the longer the sound has lasted.
/// Accuracy: 6 inner steps a frame where the standard takes 24; see loudness.h.
/// Source: ISO 532-1:2017 6.3. Tested: signal.LoudnessTwin.*
void decay_core_loudness(std::vector<CoreLoudness>& frames);

/// Core loudness each 0.5 ms as the ear holds it: smoothed_band_powers, CoreLoudnessOf, decay_core_loudness.
std::vector<CoreLoudness> core_loudness_over_time(std::span<const double> pressure_pa, double rate_hz,
                                                   SoundField field);

inline constexpr std::size_t kFramesPerValue = 4;  ///< loudness is given each 2 ms

/// Loudness over time as heard: 0.47 times a low-pass of 3.5 ms plus 0.53 times one of 70 ms.
/// In   loudness [sone] each 0.5 ms, between them a straight line.  Out  each fourth value, 2 ms apart.
/// Equals the standard's 24 inner steps a frame to rounding. Source: ISO 532-1:2017 6.4. Tested: signal.LoudnessTwin.*
std::vector<double> temporally_weighted(const std::vector<double>& loudness_sone);

}  // namespace ringfall::signal
