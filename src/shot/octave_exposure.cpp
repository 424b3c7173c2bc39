// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/octave_exposure.h"

#include <algorithm>

#include "shot/shot_levels.h"
#include "signal/bands.h"
#include "signal/levels.h"

namespace ringfall::shot {
namespace {

constexpr double kOctaveLeadIn_s = 0.002;  // the peak may come a little before the steepest rise
constexpr double kWholeBand = 0.98;
// 63 Hz and 16 kHz, counted from 1 kHz.
constexpr int kLowestOctave = -4;
constexpr int kHighestOctave = 4;

}  // namespace

std::vector<OctaveExposure> octave_exposures(const PressureClip& clip, double undisturbed_s, const MeasureSettings& settings) {
  std::vector<OctaveExposure> exposures;
  const ShotSegment segment(clip, undisturbed_s);
  const double start_s = segment.edge_s - std::min(segment.edge_s, kOctaveLeadIn_s);
  const double end_s = std::min(segment.edge_s + settings.shot_window_s, segment.end_s);
  for (int x = kLowestOctave; x <= kHighestOctave; ++x) {
    const signal::Band band = signal::octave_band(x);
    const auto power = segment.spectrum.band_power(band);
    if (!power || power->high_hz < kWholeBand * band.high_hz) continue;
    const auto level = signal::exposure_level_of_mean_square_db(power->between(start_s, end_s), power->rate_hz);
    if (level) exposures.push_back({band.nominal_hz, *level});
  }
  return exposures;
}

}  // namespace ringfall::shot
