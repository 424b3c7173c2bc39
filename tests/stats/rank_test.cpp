// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/rank.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/rank_distributions.h"

namespace ringfall::stats {
namespace {

// Hollander & Wolfe: colour and quality of canned tuna (help of R's cor.test).
const std::vector<double> kTunaColour{44.4, 45.9, 41.9, 53.3, 44.7, 44.1, 50.7, 45.2, 60.1};
const std::vector<double> kTunaQuality{2.6, 3.1, 2.5, 5.0, 3.6, 4.0, 5.2, 2.8, 3.8};

TEST(Rank, TiesShareTheirMean) {
  EXPECT_EQ(ranks(std::vector<double>{3.0, 1.0, 3.0, 2.0}),
            (std::vector<double>{3.5, 1.0, 3.5, 2.0}));
}

TEST(Rank, SpearmanTenPairs) {
  // A textbook's ten pairs: rho -29/165; p 0.6272 by t, 0.632 exact (R).
  const std::vector<double> x{106, 100, 86, 101, 99, 103, 97, 113, 112, 110};
  const std::vector<double> y{7, 27, 2, 50, 28, 29, 20, 12, 6, 17};
  const RankAgreement r = spearman(x, y).value();
  EXPECT_NEAR(r.coefficient, -29.0 / 165.0, 1e-14);
  EXPECT_NEAR(r.approximate_p, 0.6272, 5e-5);
  EXPECT_NEAR(r.p, 0.632, 5e-4);
  EXPECT_EQ(r.method, PMethod::exact);
  // Bonett & Wright by hand: z = artanh(-0.17576), variance (1 + 0.17576^2 / 2) / 7 (Python).
  EXPECT_NEAR(r.interval->low, -0.727830, 1e-6);
  EXPECT_NEAR(r.interval->high, 0.514547, 1e-6);
}

TEST(Rank, SpearmanFullAgreement) {
  // Of n! orders two are as extreme: 2/24 and 2/12!.
  const std::vector<double> four{1.0, 2.0, 3.0, 4.0};
  const RankAgreement r = spearman(four, four).value();
  EXPECT_EQ(r.coefficient, 1.0);
  EXPECT_NEAR(r.p, 2.0 / 24.0, 1e-15);
  EXPECT_FALSE(r.interval);
  std::vector<double> twelve;
  std::vector<double> falling;
  for (int i = 0; i < 12; ++i) {
    twelve.push_back(i);
    falling.push_back(-i);
  }
  EXPECT_NEAR(spearman(twelve, falling).value().p, 2.0 / 479001600.0, 1e-22);
  EXPECT_EQ(spearman(twelve, falling).value().coefficient, -1.0);
}

TEST(Rank, SpearmanTiedExactByHand) {
  // y ranks 3 1.5 1.5 4; of the 12 distinct orders 8 lie as far from the mean product sum.
  const RankAgreement r =
      spearman(std::vector<double>{1, 2, 3, 4}, std::vector<double>{5, 2, 2, 9}).value();
  EXPECT_NEAR(r.p, 8.0 / 12.0, 1e-15);
}

TEST(Rank, SampledPNearTheExact) {
  // 13 pairs are sampled. x the order, y three neighbours swapped: t with 11 degrees is near.
  std::vector<double> x;
  std::vector<double> y;
  for (int i = 0; i < 13; ++i) {
    x.push_back(i);
    y.push_back((i * 5) % 13);
  }
  const RankAgreement r = spearman(x, y).value();
  EXPECT_EQ(r.method, PMethod::sampled);
  EXPECT_NEAR(r.p, r.approximate_p, 0.02);
}

TEST(Rank, KendallWithTies) {
  // Reference library's test: tau-b -0.4714045, p 0.2827455 (normal, ties).
  const RankAgreement r =
      kendall(std::vector<double>{12, 2, 1, 12, 2}, std::vector<double>{1, 4, 7, 1, 0}).value();
  EXPECT_NEAR(r.coefficient, -0.4714045, 5e-8);
  EXPECT_NEAR(r.approximate_p, 0.2827455, 5e-8);
  EXPECT_EQ(r.method, PMethod::exact);
}

TEST(Rank, KendallTiedExactByHand) {
  // x 1 2 3, y 1 1 2: orders of y are 112 121 211 with S = 2, 0, -2: p = 2/3.
  const RankAgreement r =
      kendall(std::vector<double>{1, 2, 3}, std::vector<double>{1, 1, 2}).value();
  EXPECT_NEAR(r.p, 2.0 / 3.0, 1e-15);
}

TEST(Rank, KendallTuna) {
  // tau 0.44444, 26 concordant pairs, p 0.05972 one-sided (R).
  const RankAgreement r = kendall(kTunaColour, kTunaQuality).value();
  EXPECT_NEAR(r.coefficient, (26.0 - 10.0) / 36.0, 1e-14);
  EXPECT_NEAR(r.p, 2.0 * 0.05972, 1e-5);
  EXPECT_EQ(r.method, PMethod::exact);
  // Fieller and others by hand: z = artanh(0.44444), variance 0.437 / 5 (Python).
  EXPECT_NEAR(r.interval->low, -0.101329, 1e-6);
  EXPECT_NEAR(r.interval->high, 0.784586, 1e-6);
}

TEST(Rank, KendallSampledWithTies) {
  std::vector<double> x = kTunaColour;
  std::vector<double> y = kTunaQuality;
  x.push_back(45.2);
  y.push_back(3.1);
  const RankAgreement r = kendall(x, y).value();
  EXPECT_EQ(r.method, PMethod::sampled);
  EXPECT_NEAR(r.p, r.approximate_p, 0.02);
}

// Fourteen in one order, one tie: none of 100 000 drawn orders comes near (4 of 14!), yet p is never 0 (Phipson & Smyth 2010).
TEST(Rank, KendallSampledNeverSaysZero) {
  std::vector<double> x;
  std::vector<double> y;
  for (int k = 0; k < 14; ++k) {
    x.push_back(k);
    y.push_back(std::max(k, 1));
  }
  const RankAgreement r = kendall(x, y).value();
  EXPECT_EQ(r.method, PMethod::sampled);
  EXPECT_DOUBLE_EQ(r.p, 1.0 / 100001.0);
}

TEST(Rank, Distributions) {
  // 4 values: 1 3 5 6 5 3 1 of 24 orders with 0 .. 6 discordant pairs. 2 against 2: 1 1 2 1 1 of 6.
  const std::vector<double> four{1, 3, 5, 6, 5, 3, 1};
  const auto pairs = discordant_pair_chances(4);
  ASSERT_EQ(pairs.size(), four.size());
  for (std::size_t i = 0; i < 7; ++i) EXPECT_NEAR(pairs[i], four[i] / 24.0, 1e-15);
  const std::vector<double> two{1, 1, 2, 1, 1};
  const auto counts = mann_whitney_chances(2, 2);
  ASSERT_EQ(counts.size(), two.size());
  for (std::size_t i = 0; i < 5; ++i) EXPECT_NEAR(counts[i], two[i] / 6.0, 1e-15);
}

TEST(Rank, PairsForPower) {
  // By hand (Python): 3 + ((1.95996 + 0.84162 sqrt(1 + rho^2 / 2)) / artanh rho)^2 = 86.03, 29.97, 14.17, 7.04.
  EXPECT_EQ(pairs_for_power(0.3), 87U);
  EXPECT_EQ(pairs_for_power(-0.5), 30U);
  EXPECT_EQ(pairs_for_power(0.7), 15U);
  EXPECT_EQ(pairs_for_power(0.9), 8U);
  // Five in full agreement: p 2/120; four: 2/24.
  EXPECT_EQ(pairs_for_power(1.0), 5U);
  EXPECT_FALSE(pairs_for_power(0.0));
  EXPECT_FALSE(pairs_for_power(0.001));
}

TEST(Rank, NoAnswer) {
  const std::vector<double> two{1.0, 2.0};
  const std::vector<double> three{1.0, 2.0, 3.0};
  const std::vector<double> same{5.0, 5.0, 5.0};
  EXPECT_FALSE(spearman(two, two));
  EXPECT_FALSE(kendall(two, two));
  EXPECT_FALSE(spearman(three, same));
  EXPECT_FALSE(kendall(same, three));
  EXPECT_THROW(spearman(two, three), InternalError);
  EXPECT_THROW(
      kendall(three, std::vector<double>{1.0, std::numeric_limits<double>::quiet_NaN(), 2.0}),
      InternalError);
}

}  // namespace
}  // namespace ringfall::stats
