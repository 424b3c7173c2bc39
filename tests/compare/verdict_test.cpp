// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/verdict.h"

#include <gtest/gtest.h>

#include <string>

namespace ringfall::compare {
namespace {

// The rules of docs/measures/comparison.md#verdict, with 1 dB noticeable.
TEST(Verdict, FollowsTheRules) {
  EXPECT_EQ(verdict_of(0.1, {-0.6, 0.8}, 1.0), Verdict::at_most_small);
  EXPECT_EQ(verdict_of(0.5, {0.2, 0.8}, 1.0), Verdict::small);
  EXPECT_EQ(verdict_of(-1.5, {-2.4, -0.6}, 1.0), Verdict::differs);
  EXPECT_EQ(verdict_of(-4.0, {-5.0, -3.0}, 1.0), Verdict::clear);
  EXPECT_EQ(verdict_of(0.3, {-0.9, 1.5}, 1.0), Verdict::not_settled);
  EXPECT_EQ(verdict_of(4.0, {-1.0, 9.0}, 1.0), Verdict::not_settled);
}

TEST(Verdict, WithoutANoticeableStepZeroDecides) {
  EXPECT_EQ(verdict_of(0.02, {0.01, 0.03}, 0.0), Verdict::measurable);
  EXPECT_EQ(verdict_of(0.02, {-0.01, 0.05}, 0.0), Verdict::not_settled);
}

TEST(Verdict, NeverSaysNoEffect) {
  for (const auto verdict : {Verdict::at_most_small, Verdict::small, Verdict::differs,
                             Verdict::clear, Verdict::measurable, Verdict::hint, Verdict::one_block_only, Verdict::not_settled_by_blocks, Verdict::not_settled}) {
    EXPECT_EQ(std::string(verdict_words(verdict)).find("no effect"), std::string::npos);
  }
}

// 3 n is where "clear" begins (docs/measures/comparison.md#verdict): 2.5 dB is not.
TEST(Verdict, ClearBeginsAtThreeTimesWhatIsNoticed) {
  EXPECT_EQ(verdict_of(2.5, {2.0, 3.0}, 1.0), Verdict::differs);
  EXPECT_EQ(verdict_of(-2.5, {-3.0, -2.0}, 1.0), Verdict::differs);
  EXPECT_EQ(verdict_of(3.0, {2.5, 3.5}, 1.0), Verdict::clear);
}

TEST(Verdict, AnAssumedWanderNeverClaimsAndNeverSettles) {
  EXPECT_EQ(verdict_of(0.1, {-0.6, 0.8}, 1.0, Ground::assumed_wander), Verdict::not_settled_by_blocks);
  EXPECT_EQ(verdict_of(0.3, {-0.9, 1.5}, 1.0, Ground::assumed_wander), Verdict::not_settled);
  EXPECT_EQ(verdict_of(-4.0, {-5.0, -3.0}, 1.0, Ground::assumed_wander), Verdict::one_block_only);
  EXPECT_EQ(verdict_of(0.02, {0.01, 0.03}, 0.0, Ground::assumed_wander), Verdict::one_block_only);
  EXPECT_FALSE(claims_difference(Verdict::one_block_only));
  EXPECT_EQ(std::string(verdict_words(Verdict::not_settled_by_blocks)), "not settled by blocks");
}

TEST(Verdict, OneBlockIsNeverClear) {
  EXPECT_EQ(verdict_of(-4.0, {-5.0, -3.0}, 1.0, Ground::known_wander), Verdict::differs);
  EXPECT_EQ(verdict_of(-4.0, {-5.0, -3.0}, 1.0, Ground::repeated_blocks), Verdict::clear);
  EXPECT_EQ(verdict_of(0.1, {-0.6, 0.8}, 1.0, Ground::known_wander), Verdict::at_most_small);
}

}  // namespace
}  // namespace ringfall::compare
