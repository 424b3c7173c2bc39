// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>

namespace ringfall::shot {

/// What one block of a calibrator's recording holds.
struct CalibratorTone {
  double rms_db = 0.0;     ///< of the whole block without its mean, re full scale (full-scale square wave = 0 dB)
  double purity_db = 0.0;  ///< the strongest tone's energy over all the rest
  double tone_hz = 0.0;    ///< of the strongest bin, to 1 / block length
  double peak = 0.0;       ///< highest |sample|
};

/// Reads one block (0.1 s or more) at full scale 1. Source: own, docs/measures/levels.md. Tested: intake.Calibration.*
CalibratorTone calibrator_tone(std::span<const float> samples, double sample_rate_hz);

}  // namespace ringfall::shot
