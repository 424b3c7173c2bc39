// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "stats/interval.h"

namespace ringfall::compare {

/// What may be said of a difference, given its 95 % interval and how large a difference counts as small (shot::Number::noticeable, here n: a
/// convention, no listening test stands behind it). Rules in docs/measures/comparison.md#verdict.
enum class Verdict {
  at_most_small,  ///< the interval lies within +-n and holds 0: "no more than a small difference"
  small,  ///< it excludes 0 and lies within +-n: "a small difference"
  differs,      ///< it excludes 0 and reaches beyond n, the difference is under 3 n, or it comes from one block each
  clear,                ///< it excludes 0 and the difference is 3 n or more; never from one block of a set-up
  measurable,           ///< it excludes 0, and nobody knows what is small for this number
  hint,                 ///< its interval excludes 0, but not after Holm: may be chance among so many
  one_block_only,       ///< it excludes 0, but how much blocks wander is assumed, not known: no claim
  not_settled_by_blocks,  ///< it lies within +-n and holds 0, but how much blocks wander is assumed, not known
  not_settled           ///< anything else: never "no effect"
};

/// What the interval rests on.
enum class Ground {
  repeated_blocks,   ///< both set-ups have two blocks or more
  known_wander,      ///< a set-up has one block; how much blocks wander is known from other blocks
  assumed_wander     ///< nor is that: it is assumed
};

Verdict verdict_of(double difference, const stats::Interval& interval, double noticeable, Ground ground = Ground::repeated_blocks);

/// Does it say that the set-ups differ? A hint doesn't, nor does one block without more.
bool claims_difference(Verdict verdict);

/// The words for it: "no more than a small difference", "clear", "not settled", ...
const char* verdict_words(Verdict verdict);

}  // namespace ringfall::compare
