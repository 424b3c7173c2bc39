// SPDX-License-Identifier: GPL-3.0-or-later
#include "stats/permutation.h"

#include <gtest/gtest.h>

#include <limits>
#include <vector>

#include "base/failure.h"
#include "stats/published.h"
#include "stats/two_groups.h"

namespace ringfall::stats {
namespace {

TEST(Permutation, StudentSleep) {
  // Complete enumeration outside the project: 15048 of C(20, 10) = 184756.
  const auto groups = permute_two(published::sleep_first, published::sleep_second).value();
  EXPECT_TRUE(groups.exact);
  EXPECT_EQ(groups.arrangements, 184756U);
  EXPECT_EQ(groups.as_extreme, 15048U);
  EXPECT_NEAR(groups.p, 0.081448, 5e-7);
  EXPECT_NEAR(groups.difference, 1.58, 1e-12);
}

TEST(Permutation, Mice) {
  // Efron & Tibshirani 1993 chapter 15 (data from memory); complete enumeration outside the project.
  const auto test = permute_two(published::mice_control, published::mice_treated).value();
  EXPECT_NEAR(test.difference, 30.635, 5e-4);
  EXPECT_EQ(test.arrangements, 11440U);
  EXPECT_EQ(test.at_least, 1613U);
  EXPECT_EQ(test.as_extreme, 3184U);
}

TEST(Permutation, SampledComesNearTheExact) {
  const PermutationSettings sampled{.most_enumerated = 1000, .drawn = 50'000, .seed = 3};
  const auto groups =
      permute_two(published::sleep_first, published::sleep_second, sampled).value();
  EXPECT_FALSE(groups.exact);
  EXPECT_EQ(groups.arrangements, 50'000U);
  // Three standard errors of the share: 3 sqrt(0.0814 * 0.9186 / 50000) = 0.0037.
  EXPECT_NEAR(groups.p, 0.081448, 0.0037);
  EXPECT_EQ(groups.p, (static_cast<double>(groups.as_extreme) + 1.0) / 50'001.0);
  // Same seed, same answer.
  EXPECT_EQ(
      permute_two(published::sleep_first, published::sleep_second, sampled).value().as_extreme,
      groups.as_extreme);
}

TEST(Permutation, SampledNeverSaysZero) {
  std::vector<double> quiet(15, 70.0);
  std::vector<double> loud(15, 80.0);
  const auto test =
      permute_two(quiet, loud, {.most_enumerated = 10, .drawn = 999, .seed = 1}).value();
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
      permute_two(std::vector<double>{70, 70, 80}, std::vector<double>{71, 81, 81}).value();
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
  // 0.1 + 0.2 is not 0.3 in doubles: all arrangements of three equal values tie with what was seen.
  const auto test = permute_two(std::vector<double>{0.1 + 0.2}, std::vector<double>{0.3, 0.3}).value();
  EXPECT_EQ(test.arrangements, 3U);
  EXPECT_EQ(test.as_extreme, 3U);
}

TEST(Permutation, SmallestP) {
  // 2/6, 2/20, 2/70; 1/10 for 2 against 3.
  const auto units = [](std::size_t n1, std::size_t n2) {
    return Stratum{std::vector<double>(n1, 0.0), std::vector<double>(n2, 0.0)};
  };
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(2, 2)}), 1.0 / 3.0, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(3, 3)}), 0.1, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(4, 4)}), 2.0 / 70.0, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(2, 3)}), 0.1, 1e-15);
  // Three sessions ABBA: 6 * 6 * 6 = 216 arrangements, 2 of them as far out as can be; two of 2 + 1: 1 of 9, as above.
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(2, 2), units(2, 2), units(2, 2)}), 2.0 / 216.0, 1e-15);
  EXPECT_NEAR(smallest_permutation_p(std::vector{units(2, 1), units(1, 2), units(5, 0)}), 1.0 / 9.0, 1e-15);
  EXPECT_EQ(smallest_permutation_p({}), 1.0);
  EXPECT_NEAR(permute_two(std::vector<double>{1, 2, 3, 4}, std::vector<double>{11, 12, 13, 14})
                  .value()
                  .p,
              2.0 / 70.0, 1e-15);
}

TEST(Permutation, NoAnswer) {
  const std::vector<double> some{1.0, 2.0};
  EXPECT_FALSE(permute_two({}, some));
  EXPECT_FALSE(permute_within_strata({}));
  EXPECT_FALSE(permute_within_strata(std::vector<Stratum>{{some, {}}, {{}, some}}));
  EXPECT_THROW(permute_two(some, std::vector<double>{std::numeric_limits<double>::quiet_NaN()}), InternalError);
  EXPECT_EQ(permute_two(some, some).value().p, 1.0);
}

}  // namespace
}  // namespace ringfall::stats
