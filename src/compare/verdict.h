// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "stats/difference.h"
#include "stats/interval.h"

namespace ringfall::compare {

/// What may be said of a difference, given its 95 % interval and what a person would notice (shot::Number::noticeable,
/// here n). Rules in docs/measures/comparison.md#verdict.
enum class Verdict {
  no_difference_heard,  ///< the interval lies within +-n and holds 0: "no difference you would hear"
  measurable_not_audible,  ///< it excludes 0 and lies within +-n
  perhaps_audible,      ///< it excludes 0 and reaches beyond n, the difference is under 3 n
  clear,                ///< it excludes 0 and the difference is 3 n or more
  measurable,           ///< it excludes 0, and nobody knows what is noticeable for this number
  hint,                 ///< its interval excludes 0, but not after Holm: may be chance among so many
  not_settled_by_blocks,  ///< it lies within +-n and holds 0, but a set-up has one block only: its shots share its luck
  not_settled           ///< anything else: never "no effect"
};

/// `unit`: shot means that a set-up has one block only.
Verdict verdict_of(double difference, const stats::Interval& interval, double noticeable, stats::Unit unit = stats::Unit::block);

/// Does it say that the set-ups differ? A hint doesn't.
bool claims_difference(Verdict verdict);

/// The words for it: "no difference you would hear", "clear", "not settled", ...
const char* verdict_words(Verdict verdict);

}  // namespace ringfall::compare
