// SPDX-License-Identifier: GPL-3.0-or-later
#include "signal/loudness.h"

#include <algorithm>
#include <cmath>

#include "base/check.h"
#include "base/units.h"
#include "signal/resample.h"
#include "signal/sharpness.h"
#include "signal/shot_loudness.h"

namespace ringfall::signal {
namespace {

constexpr double kReferencePower_pa2 = kReferencePressure_pa * kReferencePressure_pa;
constexpr double kAdded_pa2 = 1e-12;  // so that silence has a level, ISO 532-1:2017
constexpr std::size_t kFramesPerValue = 4;
constexpr double kShortestShot_s = 0.010;

/// Pressure at 48 kHz: the span itself, or resampled into `room`.
std::span<const double> at_loudness_rate(std::span<const double> pressure_pa, double rate_hz, std::vector<double>& room) {
  check(rate_hz >= 8000.0 && rate_hz <= 384000.0, "the sample rate is 8 kHz to 384 kHz");
  if (rate_hz == kLoudnessRate_hz) return pressure_pa;
  room = resample(pressure_pa, rate_hz, kLoudnessRate_hz);
  return room;
}

/// Core loudness each 0.5 ms, as the ear holds it.
std::vector<CoreLoudness> core_over_time(std::span<const double> pressure_pa, double rate_hz, SoundField field) {
  std::vector<double> room;
  const std::vector<BandPowers> powers = smoothed_band_powers(at_loudness_rate(pressure_pa, rate_hz, room));
  const CoreLoudnessOf core_of(field);
  std::vector<CoreLoudness> cores(powers.size());
  for (std::size_t t = 0; t < powers.size(); ++t) cores[t] = core_of(powers[t]);
  decay_core_loudness(cores);
  return cores;
}

}  // namespace

double loudness_level_phon(double loudness_sone) {
  if (loudness_sone >= 1.0) return 40.0 + 10.0 * std::log2(loudness_sone);
  return std::max(3.0, 40.0 * std::pow(loudness_sone + 0.0005, 0.35));
}

StationaryLoudness stationary_loudness(std::span<const double, kThirdOctaves> band_levels_db, SoundField field) {
  BandPowers powers;
  for (std::size_t i = 0; i < kThirdOctaves; ++i)
    powers[i] = std::max(0.0, kReferencePower_pa2 * db_to_power(band_levels_db[i]) - kAdded_pa2);
  StationaryLoudness out;
  out.loudness_sone = total_loudness(CoreLoudnessOf(field)(powers), out.specific_sone_per_bark);
  out.loudness_level_phon = loudness_level_phon(out.loudness_sone);
  return out;
}

std::optional<std::array<double, kThirdOctaves>> loudness_band_levels_db(std::span<const double> pressure_pa,
                                                                         double rate_hz, double skip_s) {
  std::vector<double> room;
  const std::span<const double> x = at_loudness_rate(pressure_pa, rate_hz, room);
  const double skip = skip_s * kLoudnessRate_hz;
  if (!(skip < static_cast<double>(x.size()))) return std::nullopt;
  const BandPowers powers = mean_band_powers(x, static_cast<std::size_t>(skip));
  std::array<double, kThirdOctaves> levels;
  for (std::size_t i = 0; i < kThirdOctaves; ++i)
    levels[i] = power_to_db((powers[i] + kAdded_pa2) / kReferencePower_pa2);
  return levels;
}

LoudnessTrace time_varying_loudness(std::span<const double> pressure_pa, double rate_hz, SoundField field,
                                    KeepSpecific keep) {
  const std::vector<CoreLoudness> cores = core_over_time(pressure_pa, rate_hz, field);
  LoudnessTrace trace;
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

std::optional<ShotLoudness> shot_loudness(std::span<const double> pressure_pa, double rate_hz) {
  if (static_cast<double>(pressure_pa.size()) < kShortestShot_s * rate_hz) return std::nullopt;
  const std::vector<CoreLoudness> cores = core_over_time(pressure_pa, rate_hz, SoundField::free);
  SpecificLoudness sum{};
  std::vector<double> total(cores.size());
  for (std::size_t t = 0; t < cores.size(); ++t)
    total[t] = t % kFramesPerValue == 0 ? total_loudness(cores[t], sum) : total_loudness(cores[t]);
  const std::vector<double> heard = temporally_weighted(total);
  return ShotLoudness{*std::max_element(heard.begin(), heard.end()), signal::sharpness_acum(sum)};
}

}  // namespace ringfall::signal
