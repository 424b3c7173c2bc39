// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "hard_ground/scenes.h"

namespace ringfall::hard_ground {

/// right: within a factor of 1.5 (times) or 1 dB (levels). doubted: outside, and a finding names the quantity.
/// wrong: outside, without a word.
enum class Outcome { right, null, doubted, wrong };

struct Judged {
  std::string name;
  Outcome outcome;
  double value;
  double truth;
};

struct Verdict {
  std::map<Outcome, int> counts;
  int all = 0;
  void add(Outcome outcome) {
    ++counts[outcome];
    ++all;
  }
  double percent(Outcome outcome) const {
    const auto at = counts.find(outcome);
    return all == 0 || at == counts.end() ? 0.0 : 100.0 * at->second / all;
  }
};

std::span<const char* const> number_names();

/// Numbers whose truth is not known (too little range even alone) are left out.
std::vector<Judged> judge(const Heard& heard, const shot::Shot& shot, const shot::Shot& truth);

}  // namespace ringfall::hard_ground
