// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/calibrator_tone.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstddef>
#include <numbers>
#include <vector>

#include "base/units.h"
#include "signal/fft.h"

namespace ringfall::shot {

CalibratorTone calibrator_tone(std::span<const float> samples, double sample_rate_hz) {
  const std::size_t n = samples.size();
  std::vector<double> windowed(n);
  double mean = 0.0;
  for (const float sample : samples) mean += static_cast<double>(sample) / static_cast<double>(n);
  double energy = 0.0;
  double peak = 0.0;
  for (std::size_t k = 0; k < n; ++k) {
    const double value = static_cast<double>(samples[k]) - mean;
    energy += value * value;
    peak = std::max(peak, std::abs(static_cast<double>(samples[k])));
    const double phase = 2.0 * std::numbers::pi * (static_cast<double>(k) + 0.5) / static_cast<double>(n);
    windowed[k] = value * (0.5 - 0.5 * std::cos(phase));
  }
  std::vector<std::complex<double>> bins(n / 2 + 1);
  signal::fft_real(windowed, bins);
  std::size_t top = 1;
  double total = 0.0;
  for (std::size_t k = 1; k < bins.size(); ++k) {
    total += std::norm(bins[k]);
    if (std::norm(bins[k]) > std::norm(bins[top])) top = k;
  }
  double tone = 0.0;
  // A Hann-windowed tone lies in its bin and two on either side.
  for (std::size_t k = top - std::min<std::size_t>(top - 1, 3); k <= std::min(top + 3, bins.size() - 1); ++k) {
    tone += std::norm(bins[k]);
  }
  return {power_to_db(energy / static_cast<double>(n) + 1e-20), power_to_db((tone + 1e-20) / (total - tone + 1e-20)),
          static_cast<double>(top) * sample_rate_hz / static_cast<double>(n), peak};
}

}  // namespace ringfall::shot
