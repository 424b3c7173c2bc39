// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "stats/permutation.h"

namespace ringfall::stats {

/// Two groups as one stratum.
inline std::optional<PermutationTest> permute_two(std::span<const double> first, std::span<const double> second,
                                                  const PermutationSettings& settings = {}) {
  const Stratum stratum{{first.begin(), first.end()}, {second.begin(), second.end()}};
  return permute_within_strata({&stratum, 1}, settings);
}

}  // namespace ringfall::stats
