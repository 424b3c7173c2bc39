// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "base/finding.h"
#include "compare/session.h"

namespace ringfall::compare {

/// What besides the set-up differed between the blocks, so that a difference may not be the set-up's: the floor's level
/// (gain or place changed), the sample rate, the impact lag (distance or arrow), recordings with a void finding, few shots, an
/// order of blocks that drift can fake, and one block only; blocks and shots left out are named. Rules in docs/measures/comparison.md#confounders.
std::vector<Finding> confounders(const Session& session, const std::string& baseline);

}  // namespace ringfall::compare
