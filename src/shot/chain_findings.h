// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <vector>

#include "base/finding.h"
#include "shot/chain_evidence.h"

namespace ringfall::shot {

/// What the shots of one recording say together of its chain.
struct ChainFindings {
  std::vector<Finding> recording;               ///< about the whole recording
  std::vector<std::vector<Finding>> per_shot;   ///< one list a shot, same order as the evidence
};

/// What is known of the recording besides its sound.
struct ChainContext {
  double sample_rate_hz = 0.0;
  bool lossy = false;
};

/// Judges `limited`, `gain_not_constant`, `band_limited`, `low_cut`, `rate_tag_doubtful`, `steady_tone`, `wind`.
/// Thresholds with their reasons in the .cpp; what each finds on faulty and on clean signals: docs/measures/chain.md.
/// Source: own; the faults' looks are common practice, no source. Tested: shot.ChainFindings.*
ChainFindings chain_findings(std::span<const ChainEvidence> shots, const ChainContext& context);

}  // namespace ringfall::shot
