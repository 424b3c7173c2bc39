// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/verdict.h"

#include <cmath>

#include "base/check.h"

namespace ringfall::compare {

namespace {
constexpr double kClear = 3.0;  // times what is small: 3 dB, 1.5 points
}

Verdict verdict_of(double difference, const stats::Interval& interval, double noticeable, Ground ground) {
  const bool inside = interval.low > -noticeable && interval.high < noticeable;
  if (interval.contains(0.0)) {
    if (noticeable <= 0.0 || !inside) return Verdict::not_settled;
    return ground == Ground::assumed_wander ? Verdict::not_settled_by_blocks : Verdict::at_most_small;
  }
  if (ground == Ground::assumed_wander) return Verdict::one_block_only;
  if (noticeable <= 0.0) return Verdict::measurable;
  if (inside) return Verdict::small;
  return ground == Ground::repeated_blocks && std::abs(difference) >= kClear * noticeable ? Verdict::clear : Verdict::differs;
}

bool claims_difference(Verdict verdict) {
  return verdict == Verdict::small || verdict == Verdict::differs || verdict == Verdict::clear ||
         verdict == Verdict::measurable;
}

const char* verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::at_most_small: return "no more than a small difference";
    case Verdict::small: return "a small difference";
    case Verdict::differs: return "a difference";
    case Verdict::clear: return "clear";
    case Verdict::measurable: return "measurable";
    case Verdict::hint: return "a hint, may be chance";
    case Verdict::one_block_only: return "seems so, from one block";
    case Verdict::not_settled_by_blocks: return "not settled by blocks";
    case Verdict::not_settled: return "not settled";
  }
  check(false, "unknown verdict");
  return "";
}

}  // namespace ringfall::compare
