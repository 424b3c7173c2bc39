// SPDX-License-Identifier: GPL-3.0-or-later
// Do the intervals hold what they say, and how often is a difference claimed where there is none? Simulated levels; the
// measured figures are in docs/measures/statistics.md. With 4000 runs a share of 0.95 is known to +-0.010 (3 errors).
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "stats/hodges_lehmann.h"
#include "stats/permutation.h"
#include "stats/rank.h"
#include "stats/summary.h"
#include "stats/trend.h"
#include "stats/two_groups.h"

namespace ringfall::stats {
namespace {

constexpr int kRuns = 4000;

std::vector<double> normal_list(Random& random, std::size_t n, double mean, double deviation) {
  std::vector<double> values(n);
  for (double& value : values) value = mean + deviation * random.normal();
  return values;
}

// The share of runs for which `holds` is true, printed for the documentation.
double share(const std::string& name, int runs, const std::function<bool(Random&)>& holds) {
  Random random(77);
  int count = 0;
  for (int i = 0; i < runs; ++i) count += holds(random) ? 1 : 0;
  const double result = static_cast<double>(count) / runs;
  ::testing::Test::RecordProperty(name, std::to_string(result));
  return result;
}

TEST(Coverage, RobustSlowUnderSanitizer) {
  const double shift = share("hodges_lehmann_8_8", kRuns, [](Random& r) {
    return hodges_lehmann_shift(normal_list(r, 8, 70, 1), normal_list(r, 8, 71, 1))
        .value()
        .interval->contains(1.0);
  });
  // Exact steps for 8 against 8: 1 - 2 P(U <= 13) = 0.9501.
  EXPECT_GT(shift, 0.935);
  EXPECT_LT(shift, 0.97);
  const double trend = share("theil_sen_7_at_93", kRuns, [](Random& r) {
    const std::vector<double> x{1, 2, 3, 4, 10, 12, 18};
    std::vector<double> y = normal_list(r, 7, 0, 1);
    for (std::size_t i = 0; i < 7; ++i) y[i] += 4.0 * x[i];
    return theil_sen(x, y, 0.93).value().interval->contains(4.0);
  });
  // Exactly 1 - 2 * 174/5040 = 0.93095; 3 errors are 0.012.
  EXPECT_NEAR(trend, 0.931, 0.012);
}

TEST(Coverage, SpearmanSlowUnderSanitizer) {
  // Normal pairs of correlation 0.7: Spearman's is (6 / pi) asin(0.35) = 0.6829.
  const double held = share("spearman_11", 1000, [](Random& r) {
    const std::vector<double> x = normal_list(r, 11, 0, 1);
    std::vector<double> y;
    for (const double v : x) y.push_back(0.7 * v + std::sqrt(0.51) * r.normal());
    const auto agreement = spearman(x, y).value();
    return agreement.interval && agreement.interval->contains(0.6829);
  });
  EXPECT_GT(held, 0.93);
  EXPECT_LT(held, 0.98);
}

// The same set-up against itself: the share of runs that claim a difference at 5 %.
TEST(FalseAlarms, SameAgainstSameSlowUnderSanitizer) {
  // 0.05 + 3 errors of 20 000 runs.
  constexpr double kMost = 0.0546;
  constexpr int kPairs = 20'000;
  EXPECT_LE(
      share("permutation_aa", kPairs,
            [](Random& r) {
              return permute_two(normal_list(r, 6, 70, 1), normal_list(r, 6, 70, 1)).value().p <=
                     0.05;
            }),
      kMost);
  // ABBA in three sessions with a drift of 1 dB a session and blocks that wander.
  EXPECT_LE(
      share("blocks_abba_drift_aa", kPairs,
            [](Random& r) {
              std::vector<Stratum> sessions(3);
              for (Stratum& session : sessions) {
                const double level = 70.0 + 3.0 * r.normal();
                for (int block = 0; block < 4; ++block) {
                  const double value = level + block / 3.0 + 0.5 * r.normal();
                  (block == 0 || block == 3 ? session.first : session.second).push_back(value);
                }
              }
              return permute_within_strata(sessions).value().p <= 0.05;
            }),
      kMost);
  EXPECT_LE(share("kendall_aa", kPairs,
                  [](Random& r) {
                    return kendall(normal_list(r, 8, 0, 1), normal_list(r, 8, 0, 1)).value().p <=
                           0.05;
                  }),
            kMost);
}

}  // namespace
}  // namespace ringfall::stats
