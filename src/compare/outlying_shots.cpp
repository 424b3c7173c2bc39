// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/outlying_shots.h"

#include <map>
#include <utility>

#include "stats/outlier.h"
#include "stats/summary.h"

namespace ringfall::compare {
namespace {

constexpr double kOutlyingAlpha = 0.05;

struct SeenShot {
  const SessionBlock* block;
  const SessionShot* entry;
};

}  // namespace

std::vector<OutlyingShot> outlying_shots(const Session& session, const std::vector<Measure>& measures) {
  std::vector<OutlyingShot> all;
  for (const Measure& measure : measures) {
    std::map<std::pair<int, std::string>, std::pair<std::vector<double>, std::vector<SeenShot>>> groups;
    for (const SessionBlock* block : session.kept()) {
      auto& [values, shots] = groups[{block->session, block->setup}];
      for (const SessionShot& entry : block->shots) {
        if (const auto value = measure.of(entry)) {
          values.push_back(*value);
          shots.push_back({block, &entry});
        }
      }
    }
    for (const auto& [key, group] : groups) {
      const auto& [values, shots] = group;
      for (const auto& outlying : stats::outlying_values(values)) {
        // A robust deviation of 3.5 alone is met by 20 to 40 % of clean sessions; of all groups together chance may say so in one of 20.
        if (static_cast<double>(groups.size()) * stats::grubbs_p(values, outlying.index) >= kOutlyingAlpha) continue;
        const SeenShot& seen = shots[outlying.index];
        all.push_back({measure.id, seen.block->setup, seen.block->file, seen.entry->shot.number, seen.entry->id,
                       values[outlying.index], *stats::median(values), outlying.robust_z});
      }
    }
  }
  return all;
}

}  // namespace ringfall::compare
