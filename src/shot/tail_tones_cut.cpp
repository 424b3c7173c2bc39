// SPDX-License-Identifier: GPL-3.0-or-later
// From the clip to the two reduced bands, by slicing one transform of the stretch behind the edge.
#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

#include "base/check.h"
#include "shot/tail_tones.h"
#include "shot/tone_search_steady.h"
#include "signal/fft.h"

namespace ringfall::shot {
namespace {

/// The stretch begins behind the edge, whose click would ring in the band filters for some ms, and fades in until
/// just before the ping tail.
constexpr double kStretchBegin_s = 0.008;
constexpr double kFadeIn_s = 0.006;
constexpr double kFadeOut_s = 0.002;
/// Length of the transform. A whole number of both reduced rates' samples, so that all shots share one grid.
constexpr double kStretch_s = 0.5;
constexpr double kLowRate_hz = 2400.0, kLowFlat_hz = 880.0, kLowTop_hz = 1150.0;
constexpr double kHighRate_hz = 20000.0, kHighFlat_hz = 8600.0, kHighTop_hz = 9800.0;
/// Where the sample rate itself ends the band: anti-alias filters take the rest.
constexpr double kUsableShare = 0.46;

double fade_in(double t, double length) {
  if (t >= length) return 1.0;
  const double s = std::sin(0.5 * std::numbers::pi * std::max(t, 0.0) / length);
  return s * s;
}

TailSound::Band slice(std::span<const std::complex<double>> bins, std::size_t length, double sample_rate_hz,
                      double rate_hz, double flat_hz, double top_hz, double begin_s, double end_s) {
  const bool whole = sample_rate_hz <= rate_hz;
  const auto size = whole ? length
                          : static_cast<std::size_t>(std::lround(rate_hz * static_cast<double>(length) /
                                                                 sample_rate_hz / 2.0)) * 2;
  const double bin_hz = sample_rate_hz / static_cast<double>(length);
  std::vector<std::complex<double>> part(size / 2 + 1);
  const double scale = static_cast<double>(size) / static_cast<double>(length);
  for (std::size_t k = 0; k < part.size(); ++k) {
    const double over = static_cast<double>(k) * bin_hz - flat_hz;
    double gain = scale;
    if (!whole && over > 0) {
      const double share = std::min(1.0, over / (top_hz - flat_hz));
      gain *= 0.5 * (1.0 + std::cos(std::numbers::pi * share));
    }
    part[k] = bins[k] * gain;
  }
  std::vector<double> samples(size);
  signal::ifft_real(part, samples);
  TailSound::Band band;
  band.rate_hz = sample_rate_hz * static_cast<double>(size) / static_cast<double>(length);
  band.begin_s = begin_s;
  band.end_s = end_s;
  band.usable_hz = std::min(flat_hz, kUsableShare * sample_rate_hz);
  const auto used = std::min(size, static_cast<std::size_t>(std::max(0.0, (end_s - begin_s) * band.rate_hz)));
  band.pressure_pa.assign(samples.begin(), samples.begin() + static_cast<std::ptrdiff_t>(used));
  return band;
}

}  // namespace

TailSound cut_tail(std::span<const double> pressure_pa, double sample_rate_hz, double edge_sample,
                   double tail_end_s, const MeasureSettings& settings) {
  check(sample_rate_hz >= 8000.0 && sample_rate_hz <= 192000.0, "sample rate 8000 .. 192000 Hz");
  TailSound tail;
  const auto size = static_cast<double>(pressure_pa.size());
  tail.tail_end_s = std::min({tail_end_s, settings.tail_limit_s, (size - edge_sample) / sample_rate_hz});
  const auto first = static_cast<std::int64_t>(std::ceil(edge_sample + kStretchBegin_s * sample_rate_hz));
  const auto end = static_cast<std::int64_t>(std::floor(edge_sample + tail.tail_end_s * sample_rate_hz));
  const auto length = static_cast<std::size_t>(std::lround(kStretch_s * sample_rate_hz / 2.0)) * 2;
  if (first < 0 || end <= first) return tail;
  const auto count = std::min(length, static_cast<std::size_t>(end - first));
  std::vector<double> stretch(length, 0.0);
  for (std::size_t n = 0; n < count; ++n)
    stretch[n] = pressure_pa[static_cast<std::size_t>(first) + n];
  const auto fade_samples = [&](double s) {
    return std::min(count, static_cast<std::size_t>(s * sample_rate_hz) + 1);
  };
  for (std::size_t n = 0; n < fade_samples(kFadeIn_s); ++n)
    stretch[n] *= fade_in(static_cast<double>(n) / sample_rate_hz, kFadeIn_s);
  for (std::size_t n = 0; n < fade_samples(kFadeOut_s); ++n)
    stretch[count - 1 - n] *= fade_in(static_cast<double>(n) / sample_rate_hz, kFadeOut_s);
  std::vector<std::complex<double>> bins(length / 2 + 1);
  signal::fft_real(stretch, bins);
  const double begin_s = (static_cast<double>(first) - edge_sample) / sample_rate_hz;
  const double end_s = begin_s + static_cast<double>(count) / sample_rate_hz - kFadeOut_s;
  tail.low = slice(bins, length, sample_rate_hz, kLowRate_hz, kLowFlat_hz, kLowTop_hz, begin_s, end_s);
  tail.high = slice(bins, length, sample_rate_hz, kHighRate_hz, kHighFlat_hz, kHighTop_hz, begin_s, end_s);
  const auto at = [&](double t) { return std::clamp(edge_sample + t * sample_rate_hz, 0.0, size); };
  const auto floor_first = static_cast<std::size_t>(at(settings.floor_begin_s));
  const auto floor_end = static_cast<std::size_t>(at(settings.floor_end_s));
  tail.steady = steady_tones(pressure_pa.subspan(floor_first, floor_end - floor_first), sample_rate_hz);
  return tail;
}

}  // namespace ringfall::shot
