// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/verdict.h"

#include <cmath>

#include "base/check.h"

namespace ringfall::compare {

namespace {
constexpr double kClear = 3.0;  // times what is noticeable: 3 dB, 1.5 points
}

Verdict verdict_of(double difference, const stats::Interval& interval, double noticeable, stats::Unit unit) {
  const bool holds_zero = interval.contains(0.0);
  const bool inside = interval.low > -noticeable && interval.high < noticeable;
  if (holds_zero) {
    if (noticeable <= 0.0 || !inside) return Verdict::not_settled;
    return unit == stats::Unit::block ? Verdict::no_difference_heard : Verdict::not_settled_by_blocks;
  }
  if (noticeable <= 0.0) return Verdict::measurable;
  if (inside) return Verdict::measurable_not_audible;
  return std::abs(difference) >= kClear * noticeable ? Verdict::clear : Verdict::perhaps_audible;
}

bool claims_difference(Verdict verdict) {
  return verdict == Verdict::measurable_not_audible || verdict == Verdict::perhaps_audible || verdict == Verdict::clear ||
         verdict == Verdict::measurable;
}

const char* verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::no_difference_heard: return "no difference you would hear";
    case Verdict::measurable_not_audible: return "measurable, not audible";
    case Verdict::perhaps_audible: return "measurable, perhaps audible";
    case Verdict::clear: return "clear";
    case Verdict::measurable: return "measurable";
    case Verdict::hint: return "a hint, may be chance";
    case Verdict::not_settled_by_blocks: return "not settled by blocks";
    case Verdict::not_settled: return "not settled";
  }
  check(false, "unknown verdict");
  return "";
}

}  // namespace ringfall::compare
