// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/blocked_rank.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "stats/power.h"
#include "stats/random.h"

namespace ringfall::stats {
namespace {

// Shrout & Fleiss 1979 (Psychological Bulletin 86, 420), table 2: four judges rate six targets; ICC(1,1) = 0.17 (from memory). By hand:
// between 56.2083 / 5 = 11.2417, within 112.75 / 18 = 6.2639, (11.2417 - 6.2639) / (11.2417 + 3 * 6.2639) = 0.16574.
TEST(BlockedRank, IntraclassCorrelationOfSixTargets) {
  const std::vector<std::vector<double>> targets{{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
  EXPECT_NEAR(intraclass_correlation(targets).value(), 0.16574, 5e-6);
}

// By hand: groups 1 2, 4 5 6: between 2 * 2.1^2 + 3 * 1.4^2 = 14.7, within 0.5 + 2 = 2.5 over 3; m = 5 - 13 / 5 = 2.4.
TEST(BlockedRank, IntraclassCorrelationOfUnequalGroups) {
  const std::vector<std::vector<double>> groups{{1, 2}, {}, {4, 5, 6}};
  const double within = 2.5 / 3.0;
  EXPECT_NEAR(intraclass_correlation(groups).value(), (14.7 - within) / (14.7 + 1.4 * within), 1e-12);
}

TEST(BlockedRank, IntraclassCorrelationKnowsItsEnds) {
  EXPECT_EQ(intraclass_correlation(std::vector<std::vector<double>>{{3, 3}, {4, 4}}), 1.0);
  EXPECT_EQ(intraclass_correlation(std::vector<std::vector<double>>{{3, 5}, {5, 3}}), 0.0) << "never below";
  EXPECT_FALSE(intraclass_correlation(std::vector<std::vector<double>>{{3, 3}, {3, 3}})) << "no spread";
  EXPECT_FALSE(intraclass_correlation(std::vector<std::vector<double>>{{3, 4}})) << "one group";
  EXPECT_FALSE(intraclass_correlation(std::vector<std::vector<double>>{{3}, {4}, {5}})) << "none with two";
}

TEST(BlockedRank, PairsThatDoNotClingTellAsMuchAsTheyAre) {
  const std::vector<double> x{1, 4, 2, 3, 1.5, 3.5, 2.5, 2.8};
  const std::vector<double> y{2, 4, 3, 1, 1.6, 3.4, 2.2, 2.9};
  const std::vector<std::size_t> blocks{1, 1, 2, 2, 3, 3, 4, 4};
  const std::vector<std::size_t> each_its_own{1, 2, 3, 4, 5, 6, 7, 8};
  for (const auto& of : {blocks, each_its_own}) {
    const auto agreement = kendall_in_blocks(x, y, of).value();
    EXPECT_EQ(agreement.effective_n, 8.0);
    EXPECT_EQ(agreement.agreement.p, kendall(x, y)->p);
    EXPECT_EQ(agreement.agreement.interval->low, kendall(x, y)->interval->low);
    EXPECT_EQ(spearman_in_blocks(x, y, of)->agreement.p, spearman(x, y)->p);
  }
}

// Both lists are the same throughout each of six blocks: ICC 1, 18 pairs in threes count as 6. By hand, tau 1: without relation the variance is
// 2 (2 * 6 + 5) / (9 * 6 * 5) = 0.125926, t = 2.81803 with 4 degrees of freedom: p = 0.04791 (two-sided, closed form of t with 4 df).
TEST(BlockedRank, WholeBlocksCountOnce) {
  std::vector<double> x;
  std::vector<std::size_t> blocks;
  for (std::size_t k = 0; k < 18; ++k) {
    x.push_back(static_cast<double>(k / 3));
    blocks.push_back(100 - k / 3);
  }
  const auto found = kendall_in_blocks(x, x, blocks).value();
  EXPECT_NEAR(found.effective_n, 6.0, 1e-12);
  EXPECT_DOUBLE_EQ(found.agreement.coefficient, 1.0);
  EXPECT_EQ(found.agreement.n, 18U);
  EXPECT_FALSE(found.agreement.interval);
  const double t = 1.0 / std::sqrt(2.0 * 17.0 / 270.0);
  const double s = t / std::sqrt(4.0 + t * t);
  EXPECT_NEAR(found.agreement.p, 1.0 - 1.5 * s * (1.0 - s * s / 3.0), 1e-9);
  // Four blocks of them: fewer than five effective pairs can't show anything.
  const std::size_t four = 12;
  const auto few = spearman_in_blocks(std::span(x).first(four), std::span(x).first(four), std::span(blocks).first(four)).value();
  EXPECT_NEAR(few.effective_n, 4.0, 1e-12);
  EXPECT_EQ(few.agreement.p, 1.0);
  EXPECT_FALSE(few.agreement.interval);
}

// Seven blocks of two, alike within, orders 1 2 3 .. 7 and 2 1 3 .. 7: 7 effective pairs, tau 19/21, rho 1 - 12/336. By hand with Student's 0.975
// quantile of 5 degrees of freedom 2.570582 (tables): tanh(artanh r +- 2.570582 sqrt(v)), v 0.437 / 3 and (1 + rho^2 / 2) / 4.
TEST(BlockedRank, IntervalOfWholeBlocks) {
  std::vector<double> x;
  std::vector<double> y;
  std::vector<std::size_t> blocks;
  for (std::size_t k = 0; k < 14; ++k) {
    blocks.push_back(k / 2);
    x.push_back(static_cast<double>(k / 2));
    y.push_back(k < 2 ? 1.0 : k < 4 ? 0.0 : x.back());
  }
  const auto tau = kendall_in_blocks(x, y, blocks).value();
  EXPECT_NEAR(tau.effective_n, 7.0, 1e-12);
  EXPECT_NEAR(tau.agreement.coefficient, 19.0 / 21.0, 1e-12);
  EXPECT_NEAR(tau.agreement.interval.value().low, 0.475203, 1e-5);
  EXPECT_NEAR(tau.agreement.interval->high, 0.986043, 1e-5);
  const auto rho = spearman_in_blocks(x, y, blocks).value();
  EXPECT_NEAR(rho.agreement.coefficient, 1.0 - 12.0 / 336.0, 1e-12);
  EXPECT_NEAR(rho.agreement.interval.value().low, 0.420276, 1e-5);
  EXPECT_NEAR(rho.agreement.interval->high, 0.998382, 1e-5);
  // t = rho sqrt(6) with 5 degrees of freedom (SciPy 1.10).
  EXPECT_NEAR(rho.agreement.p, 0.0645899, 1e-6);
}

/// One made-up evening: numbers and ratings wander by block and differ from shot to shot by 1.
struct Evening {
  std::size_t blocks;
  std::size_t shots;
  double wander;
  std::vector<double> setup;  ///< of each block, added to the number; empty: one set-up
  double heard = 0.0;         ///< share of the set-up's difference that the rating follows
};

double share_claimed(const Evening& evening, int runs, bool by_block) {
  Random random(20240707);
  int claimed = 0;
  for (int run = 0; run < runs; ++run) {
    std::vector<double> x;
    std::vector<double> y;
    std::vector<std::size_t> blocks;
    for (std::size_t block = 0; block < evening.blocks; ++block) {
      const double setup = evening.setup.empty() ? 0.0 : evening.setup[block % evening.setup.size()];
      const double luck_x = setup + evening.wander * random.normal();
      const double luck_y = evening.heard * setup + evening.wander * random.normal();
      for (std::size_t shot = 0; shot < evening.shots; ++shot) {
        x.push_back(luck_x + random.normal());
        y.push_back(luck_y + random.normal());
        blocks.push_back(by_block ? block : y.size());
      }
    }
    const auto found = kendall_in_blocks(x, y, blocks, 0.95).value();
    const auto& interval = found.agreement.interval;
    claimed += found.agreement.p < 0.05 && (!interval || !interval->contains(0.0)) ? 1 : 0;
  }
  return static_cast<double>(claimed) / runs;
}

// Where ratings have nothing to do with the numbers no more than 5 in 100 may be called agreement or contradiction (4000 runs: 3 errors 1 %).
// The figures are in docs/measures/statistics.md#pairs-in-blocks.
TEST(BlockedRank, ClaimsNoMoreThanItMay) {
  constexpr int kRuns = 4000;
  const std::vector<Evening> evenings{{6, 5, 0.0, {}}, {4, 5, 0.7, {}},  {6, 5, 1.0, {}}, {12, 3, 1.0, {}},
                                      {3, 6, 2.0, {}}, {6, 5, 0.7, {0.0, 0.5, -2.0, -2.0, 0.5, 0.0}}};
  for (std::size_t k = 0; k < evenings.size(); ++k) {
    const double share = share_claimed(evenings[k], kRuns, true);
    RecordProperty("claimed_" + std::to_string(k), std::to_string(share));
    EXPECT_LE(share, 0.05 + 0.01) << k;
  }
  // What it is for: taken as pairs each of its own, one in seven such evenings was called agreement or contradiction.
  const double taken_alone = share_claimed(evenings[2], kRuns, false);
  RecordProperty("taken_alone", std::to_string(taken_alone));
  EXPECT_GT(taken_alone, 0.10);
  // And what is left to find: a rating that follows the set-ups, over 12 blocks.
  const double found = share_claimed({12, 3, 0.5, {0.0, 0.5, -2.0, -2.0, 0.5, 0.0}, 1.0}, kRuns, true);
  RecordProperty("found", std::to_string(found));
  EXPECT_GT(found, 0.5);
}

}  // namespace
}  // namespace ringfall::stats
