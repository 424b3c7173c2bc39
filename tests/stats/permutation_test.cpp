// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/permutation.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/published.h"
#include "stats/rank.h"

namespace ringfall::stats {
namespace {

TEST(Permutation, StudentSleep) {
  // Complete enumeration outside the project: 15048 of C(20, 10) = 184756.
  const auto groups = permute_groups(published::sleep_first, published::sleep_second).value();
  EXPECT_TRUE(groups.exact);
  EXPECT_EQ(groups.arrangements, 184756U);
  EXPECT_EQ(groups.as_extreme, 15048U);
  EXPECT_NEAR(groups.p, 0.081448, 5e-7);
  EXPECT_NEAR(groups.difference, 1.58, 1e-12);

  std::vector<double> differences;
  for (std::size_t i = 0; i < published::sleep_first.size(); ++i) {
    differences.push_back(published::sleep_second[i] - published::sleep_first[i]);
  }
  const auto signs = flip_signs(differences).value();
  EXPECT_EQ(signs.arrangements, 1024U);
  EXPECT_EQ(signs.as_extreme, 4U);
}

TEST(Permutation, DarwinsMaize) {
  // Fisher 1935 section 21: 863 of the 32768 sign patterns reach a total of 314 or more (835 exceed it).
  const auto test = flip_signs(published::maize).value();
  EXPECT_EQ(test.arrangements, 32768U);
  EXPECT_EQ(test.at_least, 863U);
  EXPECT_EQ(test.at_most, 32768U - 835U);
  EXPECT_EQ(test.as_extreme, 2U * 863U);
  EXPECT_NEAR(test.difference, 314.0 / 15.0, 1e-12);

  // Signed ranks in place of the values: Wilcoxon's exact p, 0.041260 (R, wilcox.test: statistic 24).
  std::vector<double> sizes;
  for (const double d : published::maize) sizes.push_back(std::abs(d));
  std::vector<double> signed_ranks = ranks(sizes);
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (published::maize[i] < 0.0) signed_ranks[i] = -signed_ranks[i];
  }
  EXPECT_NEAR(flip_signs(signed_ranks).value().p, 0.041260, 5e-7);
}

TEST(Permutation, Mice) {
  // Efron & Tibshirani 1993 chapter 15 (data from memory); complete enumeration outside the project.
  const auto test = permute_groups(published::mice_control, published::mice_treated).value();
  EXPECT_NEAR(test.difference, 30.635, 5e-4);
  EXPECT_EQ(test.arrangements, 11440U);
  EXPECT_EQ(test.at_least, 1613U);
  EXPECT_EQ(test.as_extreme, 3184U);
}

TEST(Permutation, SampledComesNearTheExact) {
  const PermutationSettings sampled{.most_enumerated = 1000, .drawn = 50'000, .seed = 3};
  const auto groups =
      permute_groups(published::sleep_first, published::sleep_second, sampled).value();
  EXPECT_FALSE(groups.exact);
  EXPECT_EQ(groups.arrangements, 50'000U);
  // Three standard errors of the share: 3 sqrt(0.0814 * 0.9186 / 50000) = 0.0037.
  EXPECT_NEAR(groups.p, 0.081448, 0.0037);
  EXPECT_EQ(groups.p, (static_cast<double>(groups.as_extreme) + 1.0) / 50'001.0);
  const auto signs = flip_signs(published::maize, sampled).value();
  EXPECT_NEAR(signs.p, 0.052673, 0.0030);
  // Same seed, same answer.
  EXPECT_EQ(
      permute_groups(published::sleep_first, published::sleep_second, sampled).value().as_extreme,
      groups.as_extreme);
}

TEST(Permutation, SampledNeverSaysZero) {
  std::vector<double> quiet(15, 70.0);
  std::vector<double> loud(15, 80.0);
  const auto test =
      permute_groups(quiet, loud, {.most_enumerated = 10, .drawn = 999, .seed = 1}).value();
  EXPECT_EQ(test.p, 1.0 / 1000.0);
}

TEST(Permutation, StrataKeepSessionsApart) {
  // Session two is 10 dB louder and holds most of the second set-up's blocks. By hand: within the strata second - first is
  // 1 (weight 2/3) and 1 (weight 2/3); 3 * 3 arrangements, of which only the observed one reaches it.
  const std::vector<Stratum> sessions{{{70.0, 70.0}, {71.0}}, {{80.0}, {81.0, 81.0}}};
  const auto test = permute_within_strata(sessions).value();
  EXPECT_NEAR(test.difference, 1.0, 1e-12);
  EXPECT_EQ(test.arrangements, 9U);
  EXPECT_EQ(test.at_least, 1U);
  EXPECT_EQ(test.as_extreme, 1U);
  // Thrown together the sessions pass for an effect: (71 + 81 + 81)/3 - (70 + 70 + 80)/3 = 4.33.
  const auto together =
      permute_groups(std::vector<double>{70, 70, 80}, std::vector<double>{71, 81, 81}).value();
  EXPECT_NEAR(together.difference, 13.0 / 3.0, 1e-12);
}

TEST(Permutation, StrataSampled) {
  std::vector<Stratum> sessions(12, Stratum{{70.0, 70.4, 70.1}, {70.3, 70.9, 70.6}});
  const auto test = permute_within_strata(sessions, {.drawn = 2000}).value();
  EXPECT_FALSE(test.exact);
  EXPECT_NEAR(test.difference, 0.6 - 0.5 / 3.0, 1e-9);
  EXPECT_LT(test.p, 0.01);
}

TEST(Permutation, DecimalTiesStayTied) {
  // 0.1 + 0.2 is not 0.3 in doubles; all four signs of +-0.3, +-0.3 pair up: |sum| >= 0.6 in 2 of 4.
  const auto test = flip_signs(std::vector<double>{0.1 + 0.2, 0.3}).value();
  EXPECT_EQ(test.as_extreme, 2U);
  EXPECT_EQ(flip_signs(std::vector<double>{0.1 + 0.2, -0.3}).value().as_extreme, 4U);
}

TEST(Permutation, SmallestP) {
  // 2/6, 2/20, 2/70; 1/10 for 2 against 3.
  EXPECT_NEAR(smallest_permutation_p(2, 2), 1.0 / 3.0, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(3, 3), 0.1, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(4, 4), 2.0 / 70.0, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(2, 3), 0.1, 1e-15);
  EXPECT_NEAR(permute_groups(std::vector<double>{1, 2, 3, 4}, std::vector<double>{11, 12, 13, 14})
                  .value()
                  .p,
              2.0 / 70.0, 1e-15);
}

TEST(Permutation, NoAnswer) {
  const std::vector<double> some{1.0, 2.0};
  EXPECT_FALSE(permute_groups({}, some));
  EXPECT_FALSE(flip_signs({}));
  EXPECT_FALSE(permute_within_strata({}));
  EXPECT_FALSE(permute_within_strata(std::vector<Stratum>{{some, {}}, {{}, some}}));
  EXPECT_THROW(flip_signs(std::vector<double>{std::numeric_limits<double>::quiet_NaN()}),
               InternalError);
  EXPECT_EQ(permute_groups(some, some).value().p, 1.0);
}

}  // namespace
}  // namespace ringfall::stats
