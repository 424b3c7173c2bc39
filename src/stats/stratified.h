// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include "stats/difference.h"
#include "stats/permutation.h"

namespace ringfall::stats {

/// Two set-ups' shots of one session (evening), block by block. What differs between sessions reaches both alike.
struct SessionBlocks {
  Blocks first;
  Blocks second;
};

/// The sessions in which both set-ups have a value: only they say something of a difference.
std::vector<SessionBlocks> with_both(std::span<const SessionBlocks> sessions);

/// block when both set-ups have two blocks or more over the sessions that have both, else shot.
Unit unit_of(std::span<const SessionBlocks> sessions);

/// The units that could have had each other's label: one stratum a session that has both set-ups.
std::vector<Stratum> units_within(std::span<const SessionBlocks> sessions, Unit unit);

}  // namespace ringfall::stats
