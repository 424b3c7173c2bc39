// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/segment_spectrum.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "base/check.h"
#include "signal/fft.h"

namespace ringfall::signal {
namespace {

constexpr double kRunOut_s = 0.150;
/// A band is cut out of the spectrum where its mask is this far down: below any microphone's range.
constexpr double kBandReach_db = 100.0;
constexpr double kLowestRate_hz = 1000.0;

/// A transform length >= n out of few (seven an octave), so that shots of all lengths share the plans.
std::size_t shared_length(std::size_t n) {
  std::size_t unit = 1;
  while (unit * 32 < n) unit *= 2;
  for (const std::size_t times : {16, 18, 20, 24, 25, 27, 30}) {
    if (unit * times >= n) return unit * times;
  }
  return unit * 32;
}

void fade_ends(std::vector<double>& samples, std::size_t size, std::size_t fade) {
  fade = std::min(fade, size / 2);
  for (std::size_t n = 0; n < fade; ++n) {
    const double phase = std::numbers::pi * (static_cast<double>(n) + 0.5) / static_cast<double>(fade);
    const double gain = 0.5 - 0.5 * std::cos(phase);
    samples[n] *= gain;
    samples[size - 1 - n] *= gain;
  }
}

}  // namespace

std::span<const double> BandPower::between(double begin_s, double end_s) const {
  const auto index = [&](double time_s) {
    const double place = std::clamp(std::ceil(time_s * rate_hz - 1e-6), 0.0,
                                    static_cast<double>(mean_square_pa2.size()));
    return static_cast<std::size_t>(place);
  };
  const std::size_t begin = index(begin_s);
  return std::span(mean_square_pa2).subspan(begin, std::max(index(end_s), begin) - begin);
}

SegmentSpectrum::SegmentSpectrum(std::span<const double> pressure_pa, double sample_rate_hz, double taper_s)
    : size_(pressure_pa.size()), sample_rate_hz_(sample_rate_hz) {
  check(!pressure_pa.empty(), "a segment has samples");
  check(sample_rate_hz >= 8000.0 && sample_rate_hz <= 192000.0, "sample rates run from 8 to 192 kHz");
  check(taper_s >= 0.0, "a taper is not negative");
  length_ = shared_length(size_ + static_cast<std::size_t>(std::ceil(kRunOut_s * sample_rate_hz)));
  std::vector<double> padded(length_, 0.0);
  std::copy(pressure_pa.begin(), pressure_pa.end(), padded.begin());
  fade_ends(padded, size_, static_cast<std::size_t>(taper_s * sample_rate_hz));
  bins_.resize(length_ / 2 + 1);
  fft_real(padded, bins_);
}

std::vector<double> SegmentSpectrum::weighted(FrequencyWeighting weighting) const {
  const double step_hz = sample_rate_hz_ / static_cast<double>(length_);
  std::vector<std::complex<double>> shaped(bins_.size());
  for (std::size_t k = 0; k < bins_.size(); ++k) {
    const auto response = weighting_response(weighting, static_cast<double>(k) * step_hz);
    const auto bin = bins_[k];
    shaped[k] = {bin.real() * response.real() - bin.imag() * response.imag(),
                 bin.real() * response.imag() + bin.imag() * response.real()};
  }
  std::vector<double> samples(length_);
  ifft_real(shaped, samples);
  samples.resize(size_);
  return samples;
}

std::optional<BandPower> SegmentSpectrum::band_power(const Band& band) const {
  const double nyquist_hz = sample_rate_hz_ / 2.0;
  if (band.low_hz >= nyquist_hz) return std::nullopt;
  const double step_hz = sample_rate_hz_ / static_cast<double>(length_);
  const auto reach = band_reach(band, kBandReach_db);
  const auto first = static_cast<std::size_t>(std::max(1.0, std::ceil(reach.low_hz / step_hz)));
  const auto last = std::min(static_cast<std::size_t>(reach.high_hz / step_hz), (length_ - 1) / 2);
  const std::size_t width = last >= first ? last - first + 1 : 0;
  const double duration_s = static_cast<double>(length_) / sample_rate_hz_;
  const auto slowest = static_cast<std::size_t>(std::ceil(kLowestRate_hz * duration_s));
  const std::size_t points = shared_length(std::max(width, slowest));

  // The slice goes to 0 Hz as it is: a shift of frequency leaves the envelope alone.
  std::vector<std::complex<double>> slice(points);
  const double scale = 2.0 * static_cast<double>(points) / static_cast<double>(length_);
  for (std::size_t k = 0; k < width; ++k) {
    const double attenuation_db = band_attenuation_db(band, static_cast<double>(first + k) * step_hz);
    slice[k] = bins_[first + k] * (scale * std::exp(-attenuation_db * std::numbers::ln10 / 20.0));
  }
  std::vector<std::complex<double>> envelope(points);
  ifft_complex(slice, envelope);

  BandPower power;
  power.rate_hz = static_cast<double>(points) / duration_s;
  power.cut_at_nyquist = band.high_hz > nyquist_hz;
  power.high_hz = std::min(band.high_hz, nyquist_hz);
  const double kept = static_cast<double>(size_) / sample_rate_hz_ * power.rate_hz;
  power.mean_square_pa2.resize(static_cast<std::size_t>(std::ceil(kept)));
  for (std::size_t n = 0; n < power.mean_square_pa2.size(); ++n) {
    power.mean_square_pa2[n] = 0.5 * std::norm(envelope[n]);
  }
  return power;
}

}  // namespace ringfall::signal
