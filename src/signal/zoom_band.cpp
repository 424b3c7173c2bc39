// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/zoom_band.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "base/check.h"
#include "signal/fft.h"

namespace ringfall::signal {
namespace {

/// The largest length <= n of the form 2^a 3^b 5^c.
std::size_t fast_length_below(std::size_t n) {
  while (fast_length(n) != n) --n;
  return n;
}

}  // namespace

TailSpectrum::TailSpectrum(std::span<const double> x, double rate_hz) : rate_hz_(rate_hz) {
  check(x.size() >= 2 && rate_hz > 0, "a tail has at least two samples and a rate");
  length_ = fast_length_below(x.size());
  bins_.resize(length_ / 2 + 1);
  fft_real(x.first(length_), bins_);
}

BinRange bins_between(const TailSpectrum& tail, double low_hz, double high_hz) {
  const auto last_bin = static_cast<double>((tail.length() - 1) / 2);
  const double first = std::max(1.0, std::ceil(low_hz / tail.bin_hz()));
  const double last = std::min(last_bin, std::floor(high_hz / tail.bin_hz()));
  if (!(last >= first)) return {};
  return {static_cast<std::size_t>(first), static_cast<std::size_t>(last - first) + 1};
}

ZoomedBand zoom_band(const TailSpectrum& tail, BinRange range, std::size_t taper) {
  check(range.count >= 1 && range.first >= 1 && range.first + range.count - 1 <= (tail.length() - 1) / 2,
        "a zoomed band lies between the first bin and the last below Nyquist");
  const auto slice = tail.bins().subspan(range.first, range.count);
  return zoom_bins(tail, range.first, {slice.begin(), slice.end()}, taper);
}

ZoomedBand zoom_bins(const TailSpectrum& tail, std::size_t first, std::vector<std::complex<double>> bins,
                     std::size_t taper) {
  const std::size_t count = bins.size();
  check(count >= 1 && 2 * taper <= count, "the tapers fit into the band");
  ZoomedBand band;
  band.rate_hz = static_cast<double>(count) * tail.bin_hz();
  band.zero_hz = static_cast<double>(first) * tail.bin_hz();
  band.edge = taper == 0 ? count / 8 : std::min(count / 8, count / (2 * taper));
  band.samples = std::move(bins);
  for (std::size_t i = 0; i < taper; ++i) {
    const double phase = (static_cast<double>(i) + 0.5) / static_cast<double>(taper);
    const double weight = 0.5 - 0.5 * std::cos(std::numbers::pi * phase);
    band.samples[i] *= weight;
    band.samples[count - 1 - i] *= weight;
  }
  ifft_complex(band.samples, band.samples);
  // ifft_complex divides by the short length; the samples' own scale asks for the long one.
  const double scale = static_cast<double>(count) / static_cast<double>(tail.length());
  for (auto& sample : band.samples) sample *= scale;
  return band;
}

}  // namespace ringfall::signal
