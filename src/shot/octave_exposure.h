// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "shot/pressure_clip.h"
#include "shot/settings.h"

namespace ringfall::shot {

/// Sound exposure of a shot in one octave band.
struct OctaveExposure {
  double nominal_hz = 0.0;  ///< 63 .. 16000
  double exposure_db = 0.0; ///< unweighted, dB re 20 uPa
};

/// Octave-band sound exposure levels over the shot window (0 .. shot_window_s or to where the shot is disturbed), 63 Hz .. 16 kHz; bands that
/// the sample rate does not hold whole are left out. Bands: signal/bands.h (IEC 61260-1).
/// Tests: shot.OctaveExposure.*
std::vector<OctaveExposure> octave_exposures(const PressureClip& clip, double undisturbed_s, const MeasureSettings& settings);

}  // namespace ringfall::shot
