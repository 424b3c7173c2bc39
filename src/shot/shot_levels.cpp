// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/shot_levels.h"

#include <algorithm>
#include <cmath>

#include "signal/bands.h"
#include "signal/levels.h"
#include "signal/noise_floor.h"

namespace ringfall::shot {
namespace {

constexpr double kWeightingLeadIn_s = 0.060;      // the weighting's own start has died away by the edge
constexpr double kPeakBeforeEdge_s = 0.002;  // the peak may come a little before the steepest rise
constexpr double kHighBandNeeded_hz = 12000.0;

std::vector<double> squared(std::span<const double> values) {
  std::vector<double> squares(values.size());
  std::ranges::transform(values, squares.begin(), [](double value) { return value * value; });
  return squares;
}

std::span<const double> between(const std::vector<double>& values, double rate_hz, double begin_s, double end_s) {
  const auto index = [&](double time_s) {
    return static_cast<std::size_t>(
        std::clamp(std::ceil(time_s * rate_hz - 1e-9), 0.0, static_cast<double>(values.size())));
  };
  const std::size_t begin = index(begin_s);
  return std::span(values).subspan(begin, std::max(index(end_s), begin) - begin);
}

}  // namespace

Floor measure_floor(const PressureClip& clip, const MeasureSettings& settings) {
  Floor floor;
  const auto stretch = clip.between(settings.floor_begin_s, settings.floor_end_s);
  const double rate_hz = clip.sample_rate_hz();
  if (static_cast<double>(stretch.size()) < 0.1 * rate_hz) return floor;
  const signal::SegmentSpectrum spectrum(stretch, rate_hz, 0.010);
  floor.z_pa2 = signal::floor_mean_square(squared(stretch), rate_hz);
  floor.a_pa2 = signal::floor_mean_square(squared(spectrum.weighted(signal::FrequencyWeighting::a)), rate_hz);
  for (const signal::Band& band : signal::octave_bands()) {
    const auto power = spectrum.band_power(band);
    floor.octaves_pa2.push_back(
        power ? signal::floor_mean_square(power->mean_square_pa2, power->rate_hz) : std::nullopt);
  }
  return floor;
}

ShotSegment::ShotSegment(const PressureClip& clip, double undisturbed_s)
    : spectrum(clip.between(-kWeightingLeadIn_s, undisturbed_s), clip.sample_rate_hz()),
      a_weighted_pa(spectrum.weighted(signal::FrequencyWeighting::a)),
      edge_s(std::min(kWeightingLeadIn_s, -clip.begin_s())),
      end_s(static_cast<double>(spectrum.size()) / clip.sample_rate_hz()) {
  const auto stretch = clip.between(-kWeightingLeadIn_s, undisturbed_s);
  z_pa.assign(stretch.begin(), stretch.end());
}

Levels measure_levels(const PressureClip& clip, const ShotSegment& segment, const Floor& floor,
                      const MeasureSettings& settings) {
  const double rate_hz = clip.sample_rate_hz();
  const double window_end_s = std::min(segment.edge_s + settings.shot_window_s, segment.end_s);
  const double start_s = segment.edge_s - std::min(segment.edge_s, kPeakBeforeEdge_s);
  const auto a_window = between(segment.a_weighted_pa, rate_hz, start_s, window_end_s);
  const auto z_window = between(segment.z_pa, rate_hz, start_s, window_end_s);
  Levels levels;
  levels.peak_db = signal::peak_level_db(z_window);
  levels.exposure_db = signal::exposure_level_db(a_window, rate_hz);
  levels.exposure_z_db = signal::exposure_level_db(z_window, rate_hz);
  if (const auto high = segment.spectrum.band_power(signal::high_band());
      high && high->high_hz >= kHighBandNeeded_hz) {
    levels.exposure_high_db =
        signal::exposure_level_of_mean_square_db(high->between(start_s, window_end_s), high->rate_hz);
  }
  if (const auto fast = signal::time_weighted_maximum(between(segment.a_weighted_pa, rate_hz, start_s, segment.end_s),
                                                      rate_hz, signal::TimeWeighting::fast)) {
    levels.fast_max_db = fast->level_db;
  }
  if (floor.a_pa2) levels.floor_db = signal::mean_square_level_db(*floor.a_pa2);
  return levels;
}

}  // namespace ringfall::shot
