// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace ringfall::signal {
namespace {

constexpr double kAdded_pa2 = 1e-12;  // so that silence has a level, ISO 532-1:2017

}  // namespace

double loudness_level_phon(double loudness_sone) {
  if (loudness_sone >= 1.0) return 40.0 + 10.0 * std::log2(loudness_sone);
  return std::max(3.0, 40.0 * std::pow(loudness_sone + 0.0005, 0.35));
}

StationaryLoudness stationary_loudness(std::span<const double, kThirdOctaves> band_levels_db, SoundField field) {
  BandPowers powers;
  for (std::size_t i = 0; i < kThirdOctaves; ++i)
    powers[i] = kReferencePower_pa2 * db_to_power(band_levels_db[i]);
  StationaryLoudness out;
  out.loudness_sone = total_loudness(CoreLoudnessOf(field)(powers), out.specific_sone_per_bark);
  out.loudness_level_phon = loudness_level_phon(out.loudness_sone);
  return out;
}

std::optional<std::array<double, kThirdOctaves>> loudness_band_levels_db(std::span<const double> pressure_pa,
                                                                         double rate_hz, double skip_s) {
  const auto powers = mean_band_powers(pressure_pa, rate_hz, skip_s);
  if (!powers) return std::nullopt;
  std::array<double, kThirdOctaves> levels;
  for (std::size_t i = 0; i < kThirdOctaves; ++i)
    levels[i] = power_to_db(((*powers)[i] + kAdded_pa2) / kReferencePower_pa2);
  return levels;
}

LoudnessTrace time_varying_loudness(std::span<const double> pressure_pa, double rate_hz, SoundField field,
                                    KeepSpecific keep) {
  const std::vector<CoreLoudness> cores = core_loudness_over_time(pressure_pa, rate_hz, field);
  LoudnessTrace trace;
  if (keep == KeepSpecific::yes) trace.specific_sone_per_bark.reserve(cores.size() / kFramesPerValue + 1);
  std::vector<double> total(cores.size());
  for (std::size_t t = 0; t < cores.size(); ++t) {
    if (keep == KeepSpecific::yes && t % kFramesPerValue == 0)
      total[t] = total_loudness(cores[t], trace.specific_sone_per_bark.emplace_back());
    else
      total[t] = total_loudness(cores[t]);
  }
  trace.loudness_sone = temporally_weighted(total);
  return trace;
}

}  // namespace ringfall::signal
