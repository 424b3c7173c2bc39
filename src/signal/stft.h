// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "signal/window.h"

namespace ringfall::signal {

/// mean_square: a sine of amplitude a on a bin reads a^2 / 2 there (unit^2). density: the bins times their width add up to the
/// mean square of noise (unit^2 / Hz). The two differ by the window's noise bandwidth. Both one-sided: bins
/// other than 0 and Nyquist carry the power of their mirror images too.
enum class SpectrumScaling { mean_square, density };

/// Power over time and frequency; frame i is power[i * bins] .. power[i * bins + bins - 1].
struct Spectrogram {
  std::vector<double> power;
  std::size_t frames = 0;
  std::size_t bins = 0;          ///< bin k is at k * bin_hz, k = 0 .. window/2
  double bin_hz = 0;
  double first_centre_s = 0;     ///< time of frame 0's middle from x[0]; frame i is i * hop_s later
  double hop_s = 0;

  std::span<const double> frame(std::size_t i) const { return std::span(power).subspan(i * bins, bins); }
};

/// Short-time power spectra.
/// In   x          real samples at rate_hz
///      length     samples of window and transform, >= 2
///      hop        samples from frame to frame, >= 1
/// Out  frames that lie wholly within x; none when x is shorter than one. No padding, no detrending.
/// Source: [Welch1967] for the scalings.  Cost: one transform of `length` a frame.  Tests: stft_test.cpp.
Spectrogram short_time_spectra(std::span<const double> x, double rate_hz, WindowShape shape, std::size_t length,
                               std::size_t hop, SpectrumScaling scaling);

}  // namespace ringfall::signal
