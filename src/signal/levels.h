// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace ringfall::signal {

/// Levels of sampled pressure in dB re 20 uPa. Inputs: pressure in Pa, already frequency-weighted
/// (segment_spectrum.h) or not (Z); sample rate in Hz. nullopt: nothing there (empty, or all zero).

/// 10 lg(mean square / p0^2). mean_square_pa2 >= 0.
std::optional<double> mean_square_level_db(double mean_square_pa2);

/// Equivalent level, 10 lg((1/T) integral p^2 dt / p0^2). Source: IEC 61672-1:2013 3.9. Tested: signal.Levels.*
std::optional<double> equivalent_level_db(std::span<const double> pressure_pa);

/// Sound exposure level, 10 lg(integral p^2 dt / (p0^2 1 s)), of the whole span.
/// Source: IEC 61672-1:2013 3.12. Tested: signal.Levels.*
std::optional<double> exposure_level_db(std::span<const double> pressure_pa, double sample_rate_hz);

/// The same from a mean-square sequence (BandPower).
std::optional<double> exposure_level_of_mean_square_db(std::span<const double> mean_square_pa2, double rate_hz);

/// Peak level, 20 lg(highest |sample| / p0). Between samples a wave may be higher: by up to -20 lg cos(pi f / fs),
/// at 48 kHz 0.04 dB at 1 kHz, 0.6 dB at 5.5 kHz, 3 dB at 12 kHz. Source: IEC 61672-1:2013 3.4. Tested: signal.Levels.*
std::optional<double> peak_level_db(std::span<const double> pressure_pa);

enum class TimeWeighting { fast, slow };

/// 0.125 s and 1 s (IEC 61672-1:2013 3.7).
double time_constant_s(TimeWeighting weighting);

/// Exponentially averaged level, L(t) = 10 lg((1/tau) integral_0^t p^2(x) e^((x - t)/tau) dx / p0^2), one value each
/// `step_s` from the span's start; the averager starts empty there. Exact for p^2 constant over each sample; after
/// the end of a sound L falls at 34.7 dB/s (F) and 4.34 dB/s (S). A value is nullopt before any sound.
/// Source: IEC 61672-1:2013 3.8 formula (1). Tested: signal.Levels.*
std::vector<std::optional<double>> time_weighted_trace(std::span<const double> pressure_pa, double sample_rate_hz,
                                                       TimeWeighting weighting, double step_s);

struct TimeWeightedMaximum {
  double level_db = 0.0;
  double time_s = 0.0;  ///< of the maximum, from the span's start
};
/// The maximum of that trace over all samples of the span. Start the span shortly before the shot: sound before
/// it then does not count.
std::optional<TimeWeightedMaximum> time_weighted_maximum(std::span<const double> pressure_pa, double sample_rate_hz,
                                                         TimeWeighting weighting);

}  // namespace ringfall::signal
