// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/difference.h"

#include <algorithm>

#include "stats/summary.h"

namespace ringfall::stats {
namespace {

std::size_t blocks_with_shots(const Blocks& blocks) {
  return static_cast<std::size_t>(std::ranges::count_if(blocks, [](const auto& block) { return !block.empty(); }));
}

}  // namespace

Unit unit_of(const Blocks& first, const Blocks& second) {
  return blocks_with_shots(first) >= 2 && blocks_with_shots(second) >= 2 ? Unit::block : Unit::shot;
}

std::vector<double> block_means(const Blocks& blocks) {
  std::vector<double> means;
  for (const std::vector<double>& block : blocks) {
    if (const std::optional<double> m = mean(block)) means.push_back(*m);
  }
  return means;
}

}  // namespace ringfall::stats
