// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "audio/sound_source.h"
#include "base/finding.h"

namespace ringfall::intake {

/// What a source lost between two looks at it, as findings of the block: `overrun`, `device_glitch`, `sound_missing`, all
/// cautions. Source: own, docs/measures/listening.md#loss. Tested: intake.SourceFindings.*
std::vector<Finding> findings_of_source(const audio::SourceHealth& begin, const audio::SourceHealth& end, double sample_rate_hz);

/// The first of them, when there is one.
std::optional<Finding> loss_between(const audio::SourceHealth& begin, const audio::SourceHealth& end, double sample_rate_hz);

}  // namespace ringfall::intake
