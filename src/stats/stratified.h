// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
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

/// Difference second minus first over several sessions, each with a level of its own.
/// Model value = session + set-up + rest by least squares: the estimate is the mean of the sessions' differences, weighted
/// n1 n2 / (n1 + n2) with the numbers of units; residual degrees of freedom N - sessions - 1, so that an effect that is not the
/// same every evening widens the interval. Sessions that lack one set-up are left out; with one session left it is
/// blocked_difference.
/// nullopt: no session has both, fewer than one degree of freedom, no spread. confidence 0..1 exclusive.
/// Source: two-way analysis of variance without interaction (textbook). Tested: stats.Stratified.*
std::optional<Difference> stratified_difference(std::span<const SessionBlocks> sessions, Unit unit,
                                                double confidence = kConfidence);

}  // namespace ringfall::stats
