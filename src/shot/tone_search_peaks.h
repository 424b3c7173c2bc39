// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

namespace ringfall::shot {

/// A line in a power spectrum and the noise it stands in.
struct SpectrumPeak {
  double frequency_hz = 0.0;  ///< by a parabola through the three highest bins, in dB
  double power = 0.0;         ///< at the parabola's top, unit of the spectrum
  double noise = 0.0;         ///< median of the neighbourhood, the greater of the two sides
  double excess_db = 0.0;     ///< power over noise
};

struct PeakRules {
  double low_hz = 0.0, high_hz = 0.0;              ///< lines are looked for here
  double noise_low_hz = 0.0, noise_high_hz = 0.0;  ///< and the noise is read here
  double guard_hz = 0.0;      ///< half the width of the window's main lobe: left out of the noise
  double side_hz = 0.0;       ///< least width of either side; half a critical band where that is more
  double least_excess_db = 0.0;
};

/// Local maxima that stand out of both sides of their neighbourhood, ascending. The greater side counts, so neither a sloping
/// noise nor the skirt of a stronger line makes a line. What is within guard_hz of a stronger line or of a `known_hz` is no
/// noise. power[k] is at k * bin_hz.
std::vector<SpectrumPeak> find_peaks(std::span<const double> power, double bin_hz, const PeakRules& rules,
                                     std::span<const double> known_hz = {});

/// The noise find_peaks would set against a line at this frequency; 0 where nothing but lines is around.
double noise_around(std::span<const double> power, double bin_hz, const PeakRules& rules, double frequency_hz,
                    std::span<const double> known_hz = {});

/// Excess in dB over the median that a line must show in the geometric mean of `shots` power spectra so that noise shows one
/// in less than 1 of 100 searches (docs/measures/hum_ping.md); never under 6 dB.
double least_excess_db(std::size_t shots);

}  // namespace ringfall::shot
