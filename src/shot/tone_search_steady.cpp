// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tone_search_steady.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "shot/tone_search_gates.h"
#include "shot/tone_search_peaks.h"

namespace ringfall::shot {
namespace {

constexpr double kLeastFloor_s = 0.1;
constexpr double kLow_hz = 30.0, kHigh_hz = 10000.0;
constexpr double kLeastExcess_db = 15.0;

}  // namespace

std::vector<TailSound::Steady> steady_tones(std::span<const double> pressure_pa, double sample_rate_hz) {
  std::vector<TailSound::Steady> steady;
  const double length_s = static_cast<double>(pressure_pa.size()) / sample_rate_hz;
  if (length_s < kLeastFloor_s) return steady;
  const GateSpectrum spectrum = gate_spectrum<double>(pressure_pa, sample_rate_hz, Gate{0.0, length_s}, 0.0, 1.0);
  PeakRules rules;
  rules.low_hz = kLow_hz;
  rules.high_hz = std::min(kHigh_hz, 0.46 * sample_rate_hz);
  rules.noise_low_hz = 0.5 * kLow_hz;
  rules.noise_high_hz = rules.high_hz;
  rules.guard_hz = kGateLobe / length_s;
  rules.side_hz = 12.0 / length_s;
  rules.least_excess_db = kLeastExcess_db;
  for (const SpectrumPeak& peak : find_peaks(spectrum.power, spectrum.bin_hz, rules)) {
    // A short ring or a click before the shot makes a wide line; a steady one is as narrow as the window.
    const auto at = [&](double f) {
      const auto k = static_cast<std::size_t>(std::max(0.0, std::round(f / spectrum.bin_hz)));
      return k < spectrum.power.size() ? spectrum.power[k] : 0.0;
    };
    const double half = 2.0 / length_s;  // the window is 13 dB down here
    if (std::max(at(peak.frequency_hz - half), at(peak.frequency_hz + half)) > 0.125 * peak.power) continue;
    steady.push_back({peak.frequency_hz, 10.0 * std::log10(peak.power / (kReferencePressure_pa * kReferencePressure_pa))});
  }
  return steady;
}

}  // namespace ringfall::shot
