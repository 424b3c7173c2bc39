// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/verdict.h"

#include <gtest/gtest.h>

namespace ringfall::compare {
namespace {

// The rules of docs/measures/comparison.md#verdict, with 1 dB noticeable.
TEST(Verdict, FollowsTheRules) {
  EXPECT_EQ(verdict_of(0.1, {-0.6, 0.8}, 1.0), Verdict::no_difference_heard);
  EXPECT_EQ(verdict_of(0.5, {0.2, 0.8}, 1.0), Verdict::measurable_not_audible);
  EXPECT_EQ(verdict_of(-1.5, {-2.4, -0.6}, 1.0), Verdict::perhaps_audible);
  EXPECT_EQ(verdict_of(-4.0, {-5.0, -3.0}, 1.0), Verdict::clear);
  EXPECT_EQ(verdict_of(0.3, {-0.9, 1.5}, 1.0), Verdict::not_settled);
  EXPECT_EQ(verdict_of(4.0, {-1.0, 9.0}, 1.0), Verdict::not_settled);
}

TEST(Verdict, WithoutANoticeableStepZeroDecides) {
  EXPECT_EQ(verdict_of(0.02, {0.01, 0.03}, 0.0), Verdict::measurable);
  EXPECT_EQ(verdict_of(0.02, {-0.01, 0.05}, 0.0), Verdict::not_settled);
}

TEST(Verdict, NeverSaysNoEffect) {
  for (const auto verdict : {Verdict::no_difference_heard, Verdict::measurable_not_audible, Verdict::perhaps_audible,
                             Verdict::clear, Verdict::measurable, Verdict::hint, Verdict::not_settled}) {
    EXPECT_EQ(std::string(verdict_words(verdict)).find("no effect"), std::string::npos);
  }
}

TEST(Verdict, SaysHowNarrowTheIntervalMustBecome) {
  EXPECT_DOUBLE_EQ(half_width_to_settle(0.0, 1.0), 1.0);
  EXPECT_DOUBLE_EQ(half_width_to_settle(-0.8, 1.0), 0.8);
  EXPECT_DOUBLE_EQ(half_width_to_settle(0.3, 1.0), 0.7);
  EXPECT_DOUBLE_EQ(half_width_to_settle(2.0, 1.0), 2.0);
}

}  // namespace
}  // namespace ringfall::compare
