// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/tail_level.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/units.h"
#include "signal/noise_floor.h"

namespace ringfall::shot {
namespace {

/// Third-octave slopes: steep enough to keep the families apart, and dead within some ms.
constexpr int kSlopes = 3;
/// The difference of two noisy means is no level until it is this share of the floor. Of noise alone the means over window and
/// floor scatter by 20 and 8 % (340 Hz wide, 70 and 550 ms): three times the root of their squares' sum.
constexpr double kOverFloor = 0.6;
constexpr double kLeastQuiet_s = 0.1;

std::optional<TailLevel> band_level(const PressureClip& clip, const ShotSegment& segment, const signal::Band& band, double begin_s,
                                    const MeasureSettings& settings) {
  constexpr double kHalfSample_s = 1e-4;
  if (segment.end_s - segment.edge_s + kHalfSample_s < settings.tail_level_end_s) return std::nullopt;
  const auto power = segment.spectrum.band_power(band);
  if (!power || power->cut_at_nyquist) return std::nullopt;
  const auto heard = power->between(segment.edge_s + begin_s, segment.edge_s + settings.tail_level_end_s);
  if (heard.empty()) return std::nullopt;
  const double mean = std::accumulate(heard.begin(), heard.end(), 0.0) / static_cast<double>(heard.size());
  double floor = 0.0;
  const auto before = clip.between(settings.floor_begin_s, settings.floor_end_s);
  if (static_cast<double>(before.size()) >= kLeastQuiet_s * clip.sample_rate_hz()) {
    const signal::SegmentSpectrum spectrum(before, clip.sample_rate_hz(), 0.010);
    const auto quiet = spectrum.band_power(band);
    if (quiet) floor = signal::floor_mean_square(quiet->mean_square_pa2, quiet->rate_hz).value_or(0.0);
  }
  TailLevel level;
  const double own = mean - floor;
  level.at_floor = own < kOverFloor * floor;
  constexpr double kReferenceSquare = kReferencePressure_pa * kReferencePressure_pa;
  const double most = std::max(own, kOverFloor * floor);
  if (!(most > 0)) return std::nullopt;
  level.level_db = 10.0 * std::log10(most / kReferenceSquare);
  return level;
}

}  // namespace

TailLevels tail_levels(const PressureClip& clip, const ShotSegment& segment, const MeasureSettings& settings) {
  const signal::Band hum{0.0, settings.hum_low_hz, settings.hum_high_hz, kSlopes};
  const signal::Band ping{0.0, settings.ping_low_hz, settings.ping_high_hz, kSlopes};
  return {band_level(clip, segment, hum, settings.hum_level_start_s, settings),
          band_level(clip, segment, ping, settings.ping_level_start_s, settings)};
}

}  // namespace ringfall::shot
