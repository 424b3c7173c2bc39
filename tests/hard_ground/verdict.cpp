// SPDX-License-Identifier: GPL-3.0-or-later
#include "hard_ground/verdict.h"

#include <algorithm>
#include <cmath>

namespace ringfall::hard_ground {
namespace {

constexpr std::array kNames = {"early_s", "late_s", "early_z_s", "late_z_s", "exposure_db", "peak_db", "fast_max_db"};

std::array<std::optional<double>, kNames.size()> values_of(const shot::Shot& shot) {
  return {shot.ring_down.early_s, shot.ring_down.late_s, shot.ring_down.early_z_s, shot.ring_down.late_z_s,
          shot.levels.exposure_db, shot.levels.peak_db, shot.levels.fast_max_db};
}

bool named(const std::vector<Finding>& findings, Quantity quantity) {
  return std::ranges::any_of(findings, [quantity](const Finding& finding) { return std::ranges::count(finding.voids, quantity) > 0; });
}

}  // namespace

std::span<const char* const> number_names() { return kNames; }

std::vector<Judged> judge(const Heard& heard, const shot::Shot& shot, const shot::Shot& truth) {
  std::vector<Judged> all;
  const auto values = values_of(shot);
  const auto truths = values_of(truth);
  for (std::size_t k = 0; k < kNames.size(); ++k) {
    if (!truths[k]) continue;
    const bool time = k < 4;
    const Quantity quantity = time ? Quantity::ring_down : Quantity::levels;
    Judged one{kNames[k], Outcome::null, values[k].value_or(0.0), *truths[k]};
    if (values[k]) {
      const double off = time ? std::abs(std::log(*values[k] / *truths[k])) : std::abs(*values[k] - *truths[k]);
      const bool word = named(shot.findings, quantity) || named(heard.recording, quantity);
      one.outcome = off <= (time ? std::log(1.5) : 1.0) ? Outcome::right : word ? Outcome::doubted : Outcome::wrong;
    }
    all.push_back(one);
  }
  return all;
}

}  // namespace ringfall::hard_ground
