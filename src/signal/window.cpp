// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/window.h"

#include <array>
#include <cmath>
#include <numbers>

#include "base/check.h"

namespace ringfall::signal {

std::vector<double> make_window(WindowShape shape, std::size_t count) {
  check(count >= 1, "a window has samples");
  constexpr std::array<double, 4> kHann = {0.5, 0.5, 0.0, 0.0};
  constexpr std::array<double, 4> kBlackmanHarris = {0.35875, 0.48829, 0.14128, 0.01168};
  const auto& a = shape == WindowShape::hann ? kHann : kBlackmanHarris;
  std::vector<double> window(count);
  for (std::size_t n = 0; n < count; ++n) {
    const double turn = 2.0 * std::numbers::pi * static_cast<double>(n) / static_cast<double>(count);
    window[n] = a[0] - a[1] * std::cos(turn) + a[2] * std::cos(2 * turn) - a[3] * std::cos(3 * turn);
  }
  return window;
}

double coherent_gain(std::span<const double> window) {
  double sum = 0;
  for (const double value : window) sum += value;
  return sum / static_cast<double>(window.size());
}

double noise_bandwidth_bins(std::span<const double> window) {
  double squares = 0;
  for (const double value : window) squares += value * value;
  const double gain = coherent_gain(window);
  return squares / (static_cast<double>(window.size()) * gain * gain);
}

}  // namespace ringfall::signal
