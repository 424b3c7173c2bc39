// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace ringfall::intake {

/// What a recording of a sound calibrator says of the chain.
struct Calibration {
  double full_scale_db_spl = 0.0;  ///< level of a full-scale peak
  double tone_hz = 0.0;
  double spread_db = 0.0;          ///< how much the tone's level moved over the recording
};

/// Full-scale level from a recording of a calibrator tone of known level (94 or 114 dB re 20 uPa at about 1 kHz or 250 Hz):
/// full scale = calibrator level - 20 lg(rms of the tone, full scale = 1). At least one second of steady tone.
/// FileFailure when there is no steady, unclipped tone: it moves by more than 0.5 dB, or noise and distortion stand
/// above -26 dB of it. Source: IEC 60942:2017 (levels and frequencies), docs/measures/levels.md. Tested: intake.Calibration.*
Calibration calibrate(const std::string& path, double calibrator_db, std::optional<int> channel);

}  // namespace ringfall::intake
