// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <cstddef>

namespace ringfall::signal {

/// Constants of ISO 532-1:2017 Annex A (Tables A.1 to A.9), for signal/loudness*.cpp only. The numbers are those
/// transcribed in open test data. Tested: signal.LoudnessTables.*

inline constexpr std::size_t kThirdOctaves = 28;  ///< 25 Hz .. 12.5 kHz
inline constexpr std::size_t kReducedBands = 11;  ///< 25 Hz .. 250 Hz, summed to the first three critical bands
inline constexpr std::size_t kCriticalBands = 20;

/// A third-octave filter for 48 kHz: gain times three sections with numerators (1, 2, 1), (1, 0, -1), (1, -2, 1), which
/// are the same in all bands, and denominators (1, a1, a2).
struct ThirdOctaveFilter {
  struct Section {
    double a1, a2;
  };
  double gain;
  std::array<Section, 3> sections;
};
extern const std::array<ThirdOctaveFilter, kThirdOctaves> kThirdOctaveFilters;

/// In force while level + reduction stays at or under `up_to_db` (the last one always): dB added to the band's level.
struct LowFrequencyReduction {
  double up_to_db;
  std::array<double, kReducedBands> reduction_db;
};
extern const std::array<LowFrequencyReduction, 8> kLowFrequencyReductions;

extern const std::array<double, kCriticalBands> kTransmission_db;            ///< a0
extern const std::array<double, kCriticalBands> kDiffuseFieldDifference_db;  ///< DDF
extern const std::array<double, kCriticalBands> kThreshold_db;               ///< LTQ
extern const std::array<double, kCriticalBands> kBandwidthAdaptation_db;     ///< DCB
extern const std::array<double, kCriticalBands + 1> kUpperLimit_bark;        ///< the last one: 24, without a band

/// Steepness of the slope towards higher bands where specific loudness is above `above_sone_per_bark`.
struct UpperSlope {
  double above_sone_per_bark;
  std::array<double, 8> steepness;  ///< sone/Bark per Bark, by the band in which the slope runs (from the second on)
};
extern const std::array<UpperSlope, 18> kUpperSlopes;

}  // namespace ringfall::signal
