// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/shot_ring_down.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "signal/bands.h"

namespace ringfall::shot {
namespace {

std::vector<double> squares_from(std::span<const double> pressure_pa, std::size_t begin) {
  std::vector<double> squares;
  squares.reserve(pressure_pa.size() - std::min(begin, pressure_pa.size()));
  for (std::size_t n = begin; n < pressure_pa.size(); ++n) squares.push_back(pressure_pa[n] * pressure_pa[n]);
  return squares;
}

std::vector<BandDecay> band_decays(const ShotSegment& segment, const Floor& floor, const MeasureSettings& settings) {
  std::vector<BandDecay> decays;
  const auto bands = signal::octave_bands();
  for (std::size_t k = 0; k < bands.size(); ++k) {
    const auto power = segment.spectrum.band_power(bands[k]);
    BandDecay decay{bands[k].nominal_hz, std::nullopt, std::nullopt};
    if (power && !power->cut_at_nyquist) {
      signal::DecaySettings how;
      how.range_needed_db = settings.decay_range_needed_db;
      how.bandwidth_hz = bands[k].high_hz - bands[k].low_hz;
      how.straight_only = true;
      const auto noise = k < floor.octaves_pa2.size() ? floor.octaves_pa2[k] : std::nullopt;
      const auto found =
          signal::measure_decay(power->between(segment.edge_s, segment.end_s), power->rate_hz, noise, how);
      if (found) {
        decay.late_s = found->late_s;
        decay.range_db = found->range_db;
      }
    }
    decays.push_back(decay);
  }
  return decays;
}

}  // namespace

RingDownResult measure_ring_down(const ShotSegment& segment, const Floor& floor, const MeasureSettings& settings) {
  const double rate_hz = segment.spectrum.sample_rate_hz();
  const auto edge = static_cast<std::size_t>(std::ceil(segment.edge_s * rate_hz - 1e-9));
  signal::DecaySettings how;
  how.range_needed_db = settings.decay_range_needed_db;
  RingDownResult result;
  result.a = signal::measure_decay(squares_from(segment.a_weighted_pa, edge), rate_hz, floor.a_pa2, how);
  result.z = signal::measure_decay(squares_from(segment.z_pa, edge), rate_hz, floor.z_pa2, how);
  RingDown& numbers = result.numbers;
  if (result.a) {
    numbers.early_s = result.a->early_s;
    numbers.late_s = result.a->late_s;
    numbers.range_db = result.a->range_db;
    numbers.to_20_db_s = result.a->to_20_db_s;
    result.floor_takes_over_s = result.a->crossing_s;
  }
  if (result.z) {
    numbers.early_z_s = result.z->early_s;
    numbers.late_z_s = result.z->late_s;
    result.floor_takes_over_s = std::max(result.floor_takes_over_s, result.z->crossing_s);
  }
  numbers.bands = band_decays(segment, floor, settings);
  return result;
}

}  // namespace ringfall::shot
