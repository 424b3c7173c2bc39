// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "stats/random.h"

namespace ringfall::stats {

struct PermutationSettings {
  std::uint64_t most_enumerated = 2'000'000;  ///< arrangements; above it a sample of them is drawn
  std::uint64_t drawn = 100'000;
  std::uint64_t seed = kSeed;
};

/// How the observed difference stands among those of all arrangements of labels that chance could have made.
/// Differences within 1e-12 of the largest value count as equal, so decimals that tie stay tied.
struct PermutationTest {
  double difference = 0.0;  ///< observed, second minus first
  double p =
      1.0;  ///< two-sided: share with |difference| at least the observed; sampled: (b + 1) / (m + 1)
  bool exact = true;               ///< all arrangements were counted
  std::uint64_t arrangements = 0;  ///< counted or drawn
  std::uint64_t as_extreme = 0;    ///< of them, |difference| >= |observed|
  std::uint64_t at_least = 0;      ///< of them, difference >= observed
  std::uint64_t at_most = 0;       ///< of them, difference <= observed
};

/// Values finite. A sampled p is within 2 sqrt(p (1 - p) / drawn) of the exact one, 19 times of 20.
/// Source: Fisher 1935 section 21, Pitman 1937; (b+1)/(m+1): Phipson & Smyth 2010. Tested: stats.Permutation.*

/// Units (block means, or shots) that could have had each other's label: those of one session, or of one ABBA run.
struct Stratum {
  std::vector<double> first;
  std::vector<double> second;
};

/// Labels permuted within each stratum only, so that what differs between sessions can't pass for an effect.
/// The difference is the mean of the strata's differences, weighted n1 n2 / (n1 + n2); with one stratum it is
/// permute_groups. Strata that lack one set-up are left out. nullopt: none is left.
std::optional<PermutationTest> permute_within_strata(std::span<const Stratum> strata,
                                                     const PermutationSettings& settings = {});

/// The smallest two-sided p that units in these numbers can reach: 2 by the arrangements C(n1 + n2, n1), multiplied over the
/// strata, when n1 = n2 in each, else 1 by them. 2+2 blocks 0.33, 3+3 0.10, 4+4 0.029. Strata that lack one set-up don't count;
/// 1 without any.
double smallest_permutation_p(std::span<const Stratum> strata);

}  // namespace ringfall::stats
