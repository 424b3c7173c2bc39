// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "intake/recording.h"
#include "shot/chain_evidence.h"

namespace ringfall::intake {

/// Adds what only the whole recording shows: the chain's faults, whether a buzz can be claimed, that nothing was calibrated;
/// and sets to null what those findings void in every shot. `evidence`: one entry a shot, same order.
void judge_recording(Recording& recording, const std::vector<shot::ChainEvidence>& evidence);

}  // namespace ringfall::intake
