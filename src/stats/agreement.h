// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "stats/interval.h"

namespace ringfall::stats {

/// How much a disagreement of several steps counts.
enum class KappaWeights { none, linear, quadratic };

/// Agreement of two judges who sort the same things into ordered classes, beyond chance: 1 complete, 0 as by chance.
struct Kappa {
  double kappa = 0.0;
  double standard_error = 0.0;
  Interval interval;  ///< normal, kappa +- z standard_error
};

/// table[i][j]: how many the first judge put into class i and the second into class j; square.
/// nullopt: the table is empty or chance alone agrees fully (all in one class).
/// Source: Cohen 1968; standard error: Fleiss, Cohen & Everitt 1969. Tested: stats.Agreement.*
std::optional<Kappa> weighted_kappa(const std::vector<std::vector<std::size_t>>& table,
                                    KappaWeights weights, double confidence = kConfidence);

}  // namespace ringfall::stats
