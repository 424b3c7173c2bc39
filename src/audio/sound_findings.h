// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/finding.h"

namespace ringfall::audio {

/// The findings about a file itself. What each means: docs/measures/sound_files.md#findings.

/// `truncated`, caution: fewer seconds than the header states; without `stated_s` the header gives no length at all.
Finding truncated_finding(double read_s, std::optional<double> stated_s);

/// `lossy_codec`: a note; for a codec made for speech a caution on every number.
Finding lossy_finding(const std::string& codec, bool speech_codec);

/// `bad_samples`, caution: `count` samples were NaN or infinite, the first at `first_s`.
Finding bad_samples_finding(std::int64_t count, double first_s);

/// `decoder_complaint`, caution: the decoder met damage and went on.
Finding decoder_finding(const std::string& first_complaint);

}  // namespace ringfall::audio
