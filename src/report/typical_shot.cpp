// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/typical_shot.h"

#include <cmath>
#include <vector>

#include "stats/summary.h"

namespace ringfall::report {

std::optional<ShotPlace> typical_shot(const compare::Session& session, const std::string& setup,
                                      const shot::Number& number) {
  std::vector<double> values;
  std::vector<ShotPlace> places;
  for (std::size_t block = 0; block < session.blocks.size(); ++block) {
    if (session.blocks[block].setup != setup || !session.blocks[block].dropped.empty()) continue;
    for (std::size_t shot = 0; shot < session.blocks[block].shots.size(); ++shot) {
      if (const auto value = number.of(session.blocks[block].shots[shot].shot)) {
        values.push_back(*value);
        places.push_back({block, shot});
      }
    }
  }
  const auto mean = stats::mean(values);
  if (!mean) return std::nullopt;
  std::size_t nearest = 0;
  for (std::size_t k = 1; k < values.size(); ++k) {
    if (std::abs(values[k] - *mean) < std::abs(values[nearest] - *mean)) nearest = k;
  }
  return places[nearest];
}

}  // namespace ringfall::report
