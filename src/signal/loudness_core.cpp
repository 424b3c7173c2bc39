// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness_core.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace ringfall::signal {
CoreLoudnessOf::CoreLoudnessOf(SoundField field) {
  for (std::size_t row = 0; row < kLowFrequencyReductions.size(); ++row) {
    const LowFrequencyReduction& r = kLowFrequencyReductions[row];
    for (std::size_t i = 0; i < kReducedBands; ++i) {
      reduction_[row][i] = db_to_power(r.reduction_db[i]);
      if (row < switch_at_.size())
        switch_at_[row][i] = kReferencePower_pa2 * db_to_power(r.up_to_db - r.reduction_db[i]);
    }
  }
  for (std::size_t i = 0; i < kCriticalBands; ++i) {
    const double transmission_db =
        kTransmission_db[i] - (field == SoundField::diffuse ? kDiffuseFieldDifference_db[i] : 0.0);
    threshold_[i] = kReferencePower_pa2 * db_to_power(kThreshold_db[i] + transmission_db);
    excitation_[i] = 0.25 / (threshold_[i] * db_to_power(kBandwidthAdaptation_db[i]));
    scale_[i] = 0.0635 * std::pow(10.0, 0.025 * kThreshold_db[i]);
  }
}

CoreLoudness CoreLoudnessOf::operator()(const BandPowers& power) const {
  std::array<double, kReducedBands> reduced;
  for (std::size_t i = 0; i < kReducedBands; ++i) {
    double factor = reduction_[0][i];
    for (std::size_t row = 0; row < switch_at_.size(); ++row)
      factor = power[i] > switch_at_[row][i] ? reduction_[row + 1][i] : factor;
    reduced[i] = factor * power[i];
  }
  std::array<double, kCriticalBands> band;
  band[0] = reduced[0] + reduced[1] + reduced[2] + reduced[3] + reduced[4] + reduced[5];
  band[1] = reduced[6] + reduced[7] + reduced[8];
  band[2] = reduced[9] + reduced[10];
  for (std::size_t i = 3; i < kCriticalBands; ++i) band[i] = power[i + kReducedBands - 3];

  CoreLoudness core;
  for (std::size_t i = 0; i < kCriticalBands; ++i) {
    const double fourth_root = std::sqrt(std::sqrt(0.75 + excitation_[i] * band[i]));
    const double n = scale_[i] * std::max(0.0, fourth_root - 1.0);
    core[i] = band[i] > threshold_[i] ? n : 0.0;
  }
  // The lowest band is as wide as nearly two critical bands: its threshold makes it less loud.
  if (core[0] > 0.0) core[0] *= std::min(1.0, 0.4 + 0.32 * std::pow(core[0], 0.2));
  return core;
}

std::vector<CoreLoudness> core_loudness_over_time(std::span<const double> pressure_pa, double rate_hz,
                                                   SoundField field) {
  const std::vector<BandPowers> powers = smoothed_band_powers(pressure_pa, rate_hz);
  const CoreLoudnessOf core_of(field);
  std::vector<CoreLoudness> cores;
  cores.reserve(powers.size());
  for (const BandPowers& power : powers) cores.push_back(core_of(power));
  decay_core_loudness(cores);
  return cores;
}

}  // namespace ringfall::signal
