// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <cstddef>
#include <span>
#include <vector>

namespace ringfall::signal {

/// The DFT of a tail, computed once for all bands looked at. No window: the tail is gated hard, which is what makes the DFT
/// of a damped sinusoid exactly rational. Up to 4 % of the tail is dropped at its end for a length that FFTW does fast.
class TailSpectrum {
 public:
  /// x: at least 2 samples of a real signal at rate_hz; time zero is x[0].
  TailSpectrum(std::span<const double> x, double rate_hz);

  double rate_hz() const { return rate_hz_; }
  /// Samples used, N. Bin k is at k * rate_hz / N.
  std::size_t length() const { return length_; }
  double bin_hz() const { return rate_hz_ / static_cast<double>(length_); }
  /// X[k] = sum x[n] e^{-j 2 pi k n / N}, k = 0 .. N/2.
  std::span<const std::complex<double>> bins() const { return bins_; }

 private:
  double rate_hz_;
  std::size_t length_;
  std::vector<std::complex<double>> bins_;
};

/// Bins first .. first + count - 1, never bin 0 nor the Nyquist bin: a dc offset stays out.
struct BinRange {
  std::size_t first = 0;
  std::size_t count = 0;
};

/// The bins in low_hz .. high_hz. count 0 when there are none.
BinRange bins_between(const TailSpectrum& tail, double low_hz, double high_hz);

/// A band as a complex signal at a reduced rate: y[m] is the analytic signal of the band (amplitude halved) at
/// t = m / rate_hz, shifted by -zero_hz. A component a e^{s t} of x shows as a e^{(s - j 2 pi zero_hz) t}.
struct ZoomedBand {
  std::vector<std::complex<double>> samples;
  double rate_hz = 0;      ///< count * bin width; the reduction rate/rate_hz need not be a whole number
  double zero_hz = 0;      ///< frequency of the first bin
  std::size_t edge = 0;    ///< samples at either end that the gate's transients spoil: leave them out
};

/// Zooms by slicing the spectrum: bins of the range, with cosine tapers over `taper` bins at either side, go through a short
/// inverse DFT. The slice filters circularly, so the steps at the tail's two ends ring into both ends of y; they fall by
/// 1/m without taper and by 1/m^3 from about count/(2 taper) samples on with one: `edge` is that many, at most 1/8 of y. Works next to 0 Hz and Nyquist (the
/// mirror image is outside the slice; only the image's skirt comes in).
/// In   range within bins 1 .. (N-1)/2, count >= 1; 2 taper <= count.
/// Fails: InternalError for a range outside.  Cost: O(count log count).
/// Source: own, docs/measures/tone_fit.md.  Tests: zoom_band_test.cpp.
ZoomedBand zoom_band(const TailSpectrum& tail, BinRange range, std::size_t taper);

/// The same for any bins (what a fit leaves of a band, say); the first of them is bin `first` of the tail.
ZoomedBand zoom_bins(const TailSpectrum& tail, std::size_t first, std::vector<std::complex<double>> bins,
                     std::size_t taper);

}  // namespace ringfall::signal
