// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/stft.h"

#include <complex>

#include "base/check.h"
#include "signal/fft.h"

namespace ringfall::signal {

Spectrogram short_time_spectra(std::span<const double> x, double rate_hz, WindowShape shape, std::size_t length,
                               std::size_t hop, SpectrumScaling scaling) {
  check(length >= 2 && hop >= 1 && rate_hz > 0, "frames have a length, a hop and a rate");
  Spectrogram result;
  const auto samples = static_cast<double>(length);
  result.bins = length / 2 + 1;
  result.bin_hz = rate_hz / samples;
  result.hop_s = static_cast<double>(hop) / rate_hz;
  // The periodic window is symmetric about its sample length/2.
  result.first_centre_s = 0.5 * samples / rate_hz;
  if (x.size() < length) return result;
  result.frames = (x.size() - length) / hop + 1;
  result.power.resize(result.frames * result.bins);

  const std::vector<double> window = make_window(shape, length);
  const double sum = samples * coherent_gain(window);
  double scale = 2.0 / (sum * sum);
  if (scaling == SpectrumScaling::density) scale /= noise_bandwidth_bins(window) * result.bin_hz;
  std::vector<double> windowed(length);
  std::vector<std::complex<double>> spectrum(result.bins);
  for (std::size_t i = 0; i < result.frames; ++i) {
    const auto frame = x.subspan(i * hop, length);
    for (std::size_t n = 0; n < length; ++n) windowed[n] = frame[n] * window[n];
    fft_real(windowed, spectrum);
    double* power = result.power.data() + i * result.bins;
    for (std::size_t k = 0; k < result.bins; ++k) power[k] = scale * std::norm(spectrum[k]);
    power[0] *= 0.5;
    if (length % 2 == 0) power[result.bins - 1] *= 0.5;
  }
  return result;
}

}  // namespace ringfall::signal
