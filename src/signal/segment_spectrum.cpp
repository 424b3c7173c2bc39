// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/segment_spectrum.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "signal/fft.h"

namespace ringfall::signal {
namespace {

constexpr double kRunOut_s = 0.150;
/// A band is cut out of the spectrum where its mask is this far down: below any microphone's range.
constexpr double kBandReach_db = 100.0;
constexpr double kLowestRate_hz = 1000.0;

/// A transform length >= n out of few (two an octave), so that shots of all lengths and their floors share the plans: to
/// make one takes as long as to run it fifty times.
std::size_t shared_length(std::size_t n) {
  std::size_t unit = 1;
  while (unit * 24 < n) unit *= 2;
  return unit * 18 >= n ? unit * 18 : unit * 24;
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

/// The band's gain at `count` frequencies. Between some hundred nodes it is a straight line: 3e-5 off at most.
std::vector<double> mask(const Band& band, double first_hz, double step_hz, std::size_t count) {
  const std::size_t stride = std::max<std::size_t>(1, count / 512);
  const auto gain = [&](std::size_t k) {
    const double attenuation_db = band_attenuation_db(band, first_hz + static_cast<double>(k) * step_hz);
    return std::exp(-attenuation_db * std::numbers::ln10 / 20.0);
  };
  std::vector<double> gains(count);
  double left = count > 0 ? gain(0) : 0.0;
  for (std::size_t begin = 0; begin < count; begin += stride) {
    const double right = gain(begin + stride);
    const double slope = (right - left) / static_cast<double>(stride);
    // Counted in int: from 64 bits without sign to double there is no instruction before AVX-512.
    const int steps = static_cast<int>(std::min(stride, count - begin));
    double* gains_here = gains.data() + begin;
    for (int k = 0; k < steps; ++k) gains_here[k] = left + slope * static_cast<double>(k);
    left = right;
  }
  return gains;
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
  std::vector<std::complex<double>> shaped = bins_;
  apply_weighting(weighting, step_hz, shaped);
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
  const std::vector<double> gains = mask(band, static_cast<double>(first) * step_hz, step_hz, width);
  for (std::size_t k = 0; k < width; ++k) slice[k] = bins_[first + k] * (scale * gains[k]);
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
