// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "shot/pressure_clip.h"
#include "shot/settings.h"
#include "shot/shot.h"
#include "signal/segment_spectrum.h"

namespace ringfall::shot {

/// The floor before the shot: mean squares [Pa^2] of the stretch floor_begin_s .. floor_end_s, as far as it was recorded.
struct Floor {
  std::optional<double> a_pa2;  ///< A-weighted
  std::optional<double> z_pa2;  ///< unweighted
  std::vector<std::optional<double>> octaves_pa2;  ///< as signal::octave_bands(); empty without a floor
};

/// nullopt members: less than 100 ms of sound before the shot, or digital silence.
Floor measure_floor(const PressureClip& clip, const MeasureSettings& settings);

/// A shot's stretch from 60 ms before the edge to `undisturbed_s` after it, transformed once; levels, ring-down and bands
/// are read from it.
struct ShotSegment {
  ShotSegment(const PressureClip& clip, double undisturbed_s);

  signal::SegmentSpectrum spectrum;
  std::vector<double> a_weighted_pa;
  std::vector<double> z_pa;
  double edge_s;  ///< of the loud edge, from the segment's start
  double end_s;   ///< of the segment, from its start
};

/// Levels of the shot window (0 .. shot_window_s, or `undisturbed_s` when that is shorter), dB re 20 uPa; loudness and
/// sharpness over the same window. exposure_high_db is nullopt when the sample rate ends below 16 kHz's band (Nyquist
/// under 12 kHz). Definitions: docs/measures/levels.md, docs/measures/loudness.md. Tested: shot.ShotLevels.*
Levels measure_levels(const PressureClip& clip, const ShotSegment& segment, const Floor& floor,
                      const MeasureSettings& settings);

}  // namespace ringfall::shot
