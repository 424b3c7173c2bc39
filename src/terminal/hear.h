// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "intake/recording.h"
#include "terminal/requests.h"

namespace ringfall::terminal {

/// Recordings measured side by side on several cores; results and complaints in the order asked.
struct Heard {
  std::vector<intake::Recording> recordings;
  std::vector<std::string> complaints;  ///< one sentence a recording that could not be used
};

/// Options for intake, with the calibration recording read when there is one (FileFailure when it is no use).
intake::RecordingOptions recording_options(const HearRequest& request);

/// Measures all; a recording that can't be used becomes a complaint, the others go on.
Heard hear(const std::vector<std::string>& files, const intake::RecordingOptions& options, int jobs);

}  // namespace ringfall::terminal
