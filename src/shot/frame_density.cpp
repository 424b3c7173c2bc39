// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/frame_density.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"
#include "signal/fft.h"

namespace ringfall::shot {
namespace {

constexpr std::size_t kBinsAtOnce = 64;

/// The rising half of the window: 1/2 - cos(pi t / share) / 2 at the middles of `size` equal steps until t = share, then 1.
/// The cosine by rotation: one multiplication a sample.
std::vector<double> rise(std::size_t size, double share) {
  std::vector<double> window(size, 1.0);
  const double step = std::numbers::pi / (share * static_cast<double>(size));
  const double turn_re = std::cos(step), turn_im = std::sin(step);
  double re = std::cos(0.5 * step), im = std::sin(0.5 * step);
  for (std::size_t k = 0; k < size && static_cast<double>(k) + 0.5 < share * static_cast<double>(size); ++k) {
    window[k] = 0.5 - 0.5 * re;
    const double next = re * turn_re - im * turn_im;
    im = re * turn_im + im * turn_re;
    re = next;
  }
  return window;
}

/// Eight running sums: one alone waits for itself at every sample.
double sum_of(std::span<const float> samples) {
  std::array<double, 8> sums{};
  std::size_t n = 0;
  for (; n + sums.size() <= samples.size(); n += sums.size()) {
    for (std::size_t lane = 0; lane < sums.size(); ++lane) sums[lane] += static_cast<double>(samples[n + lane]);
  }
  for (; n < samples.size(); ++n) sums[0] += static_cast<double>(samples[n]);
  double sum = 0.0;
  for (const double part : sums) sum += part;
  return sum;
}

}  // namespace

FrameDensity::FrameDensity(std::size_t size, double sample_rate_hz, const Fades& fades)
    : window_(size), windowed_(signal::fast_length(size), 0.0), bins_(windowed_.size() / 2 + 1) {
  const std::vector<double> in = rise(size, fades.in), out = rise(size, fades.out);
  double gain = 0.0;
  for (std::size_t k = 0; k < size; ++k) {
    window_[k] = std::min(in[k], out[size - 1 - k]);
    gain += window_[k] * window_[k];
  }
  scale_ = 2.0 / (gain * sample_rate_hz);
  bin_hz_ = sample_rate_hz / static_cast<double>(windowed_.size());
}

std::vector<double> FrameDensity::of(std::span<const float> frame) {
  check(frame.size() == window_.size(), "a frame has the size of its window");
  const double mean = sum_of(frame) / static_cast<double>(frame.size());
  for (std::size_t k = 0; k < frame.size(); ++k) windowed_[k] = window_[k] * (static_cast<double>(frame[k]) - mean);
  signal::fft_real(windowed_, bins_);
  std::vector<double> density(bins_.size());
  for (std::size_t k = 0; k < bins_.size(); ++k) {
    const double re = bins_[k].real(), im = bins_[k].imag();
    density[k] = scale_ * (re * re + im * im);
  }
  return density;
}

std::vector<double> median_density(std::span<const std::vector<double>> frames) {
  check(!frames.empty(), "a median is of something");
  const std::size_t count = frames.size();
  std::vector<double> medians(frames.front().size());
  // Sorted by swapping neighbours, many bins side by side: no branches, so it runs in vector registers.
  std::vector<std::array<double, kBinsAtOnce>> rows(count);
  for (std::size_t begin = 0; begin < medians.size(); begin += kBinsAtOnce) {
    const std::size_t width = std::min(kBinsAtOnce, medians.size() - begin);
    for (std::size_t k = 0; k < count; ++k) std::copy_n(frames[k].data() + begin, width, rows[k].data());
    for (std::size_t round = 0; round < count; ++round) {
      for (std::size_t k = round % 2; k + 1 < count; k += 2) {
        double* low = rows[k].data();
        double* high = rows[k + 1].data();
        for (std::size_t n = 0; n < kBinsAtOnce; ++n) {
          const double a = low[n], b = high[n];
          low[n] = std::min(a, b);
          high[n] = std::max(a, b);
        }
      }
    }
    for (std::size_t n = 0; n < width; ++n) medians[begin + n] = rows[count / 2][n] * (1.0 / std::numbers::ln2);
  }
  return medians;
}

}  // namespace ringfall::shot
