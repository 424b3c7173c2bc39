// SPDX-License-Identifier: GPL-3.0-or-later
// Is it settled at the number that was said to settle it? Sessions of that size are made up, with the difference and the spread as said:
// 8 of 10 should give a verdict. Figures: docs/measures/statistics.md#settling. Fixed seeds; 4000 each, so 80 % is known to +-1.3 %.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <vector>

#include "compare/verdict.h"
#include "stats/block_spread.h"
#include "stats/distributions.h"
#include "stats/power.h"
#include "stats/random.h"
#include "stats/rank.h"

namespace ringfall::compare {
namespace {

constexpr int kSettlingRuns = 4000;

struct SettlingCase {
  double difference;
  double deviation;
  double noticeable;
};

std::vector<double> scattered(stats::Random& random, std::size_t n, double mean, double deviation) {
  std::vector<double> values;
  for (std::size_t k = 0; k < n; ++k) values.push_back(mean + deviation * random.normal());
  return values;
}

double settled_share(const SettlingCase& one, std::size_t units, std::uint64_t seed) {
  stats::Random random(seed);
  double settled = 0.0;
  for (int k = 0; k < kSettlingRuns; ++k) {
    const auto first = scattered(random, units, 70.0, one.deviation);
    const auto second = scattered(random, units, 70.0 + one.difference, one.deviation);
    stats::SessionBlocks blocks;
    for (const double value : first) blocks.first.push_back({value});
    for (const double value : second) blocks.second.push_back({value});
    const auto spread = stats::spread_of_blocks(std::vector{blocks.first, blocks.second});
    const auto found = stats::difference_over_blocks(std::vector{blocks}, spread)->difference;
    const auto verdict = verdict_of(found.difference, found.interval, one.noticeable);
    settled += verdict != Verdict::not_settled && verdict != Verdict::not_settled_by_blocks ? 1.0 : 0.0;
  }
  return settled / kSettlingRuns;
}

// Blocks settle a difference or that it is small at most; where nobody knows what is small, a difference only. Few units are whole steps: 90 % and more
// can come of one block more, hence spreads that need six or more.
TEST(SettlingSlowUnderSanitizer, EightOfTenAreSettledAtTheNumberSaid) {
  for (const SettlingCase& one : {SettlingCase{0.0, 1.0, 1.0}, SettlingCase{0.3, 0.7, 1.0}, SettlingCase{0.8, 1.0, 1.0},
                                  SettlingCase{1.5, 1.5, 1.0}, SettlingCase{-1.2, 1.0, 0.0}, SettlingCase{0.5, 1.0, 0.0}}) {
    const auto units = stats::units_to_settle(one.difference, one.deviation, one.noticeable).value();
    const double share = settled_share(one, units, 17);
    EXPECT_GE(share, 0.75) << one.difference;
    EXPECT_LE(share, 0.90) << one.difference;
    std::printf("difference %.1f, deviation %.1f, small %.1f: %zu each, settled %.1f %%; half as many %.1f %%\n", one.difference, one.deviation,
                one.noticeable, units, 100.0 * share, 100.0 * settled_share(one, units / 2, 18));
  }
}

// Normal pairs of correlation 2 sin(pi rho / 6) have Spearman's rho; its p by t, as near as is needed here from 15 pairs.
TEST(SettlingSlowUnderSanitizer, EightOfTenRhosAreFoundWithThePairsSaid) {
  constexpr double kPi = 3.14159265358979323846;
  stats::Random random(19);
  for (const double rho : {0.3, 0.5, 0.7}) {
    const auto pairs = stats::pairs_for_power(rho).value();
    const double r = 2.0 * std::sin(kPi * rho / 6.0);
    double found = 0.0;
    for (int k = 0; k < kSettlingRuns; ++k) {
      const auto x = scattered(random, pairs, 0.0, 1.0);
      std::vector<double> y;
      for (const double value : x) y.push_back(r * value + std::sqrt(1.0 - r * r) * random.normal());
      const double seen = stats::spearman_rho(x, y).value();
      const double df = static_cast<double>(pairs) - 2.0;
      found += stats::student_t_two_sided_p(seen * std::sqrt(df / (1.0 - seen * seen)), df) < 0.05 ? 1.0 : 0.0;
    }
    found /= kSettlingRuns;
    EXPECT_GE(found, 0.75) << rho;
    EXPECT_LE(found, 0.90) << rho;
    std::printf("rho %.1f: %zu pairs, found %.1f %%\n", rho, pairs, 100.0 * found);
  }
}

}  // namespace
}  // namespace ringfall::compare
