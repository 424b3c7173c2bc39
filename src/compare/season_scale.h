// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "compare/season.h"

namespace ringfall::compare {

/// Whose levels may be held against whose in a season, and what of them is the chain's.
/// Definitions: docs/measures/season.md#scale. Tests: compare.SeasonScale.*

/// Are their levels of one scale? Both calibrated; or neither, and no microphone, device or word about the chain that both state differs.
bool same_scale(const Evening& one, const Evening& other);

/// What one decibel of the chain does to a number, in its unit; 0: nothing, the number is the same on every scale.
double per_chain_db(const Measure& measure);

/// A session's number beside earlier ones of its scale.
struct Held {
  double now = 0.0;
  std::vector<double> earlier;          ///< the newest first, already without what the chain did since
  std::optional<double> chain_step_db;  ///< taken off: the check tone now less its mean in the earlier ones; nullopt: not logged in all
};

/// Holds points[now] against the last `most` (0: all) of points[0 .. end) that have the number, on its scale where the number hangs on it.
/// The check tone's step is taken off when all of them logged one, or, with `most` 0, from `fewest` on when the others are left out.
/// nullopt: no number now, or fewer than `fewest`.
std::optional<Held> hold_against(const std::vector<SeasonPoint>& points, std::size_t now, std::size_t end, std::size_t measure,
                                 std::size_t fewest, std::size_t most);

/// A number over the season, on the scale of the last point, less the check tone's steps when all sessions logged it.
SeasonTrend trend_of(const std::vector<SeasonPoint>& points, std::size_t measure);

/// Which sessions' levels are followed and which are of another scale; empty: all are of one.
std::string scale_note_of(const std::vector<SeasonPoint>& points);

/// What the check tone says of the chain, on the scale of the last point, or that there is none.
std::string chain_note_of(const std::vector<SeasonPoint>& points);

/// What warmth and cold leave open, compare/air_doubts.h; empty: nothing.
std::string air_note_of(const std::vector<SeasonPoint>& points);

}  // namespace ringfall::compare
