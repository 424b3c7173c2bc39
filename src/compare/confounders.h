// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "compare/session.h"

namespace ringfall::compare {

/// What besides the set-up differs between the blocks of a session, as sentences; nothing is corrected for. Blocks are held against
/// the first one of their own session: another evening may have another chain when both set-ups were shot in it.
/// Definitions: docs/measures/comparison.md#confounders. Tests: compare.Comparison.*, compare.Confounders.*
std::vector<Finding> confounders(const Session& session, const std::string& baseline);

/// The part of it about chain, place and air: floor step, impact time, sample rate, device, calibration, distance, temperature.
std::vector<Finding> chain_confounders(const Session& session);

/// The part about what was shot: added mass, arrows, draw weight, brace height, string, silencers.
std::vector<Finding> part_confounders(const Session& session, const std::string& baseline);

/// Cautions that half or more of the shots or recordings of one set-up have and a fifth or less of the baseline's, or the other way round: a low
/// cut, a room, a codec on one side may be the difference.
std::vector<Finding> one_sided_findings(const Session& session, const std::string& baseline);

/// The part about how it was shot: few shots, one block, order, sessions that lack a set-up.
std::vector<Finding> order_confounders(const Session& session, const std::string& baseline);

}  // namespace ringfall::compare
