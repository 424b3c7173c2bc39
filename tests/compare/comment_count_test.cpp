// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comment_count.h"

#include <gtest/gtest.h>

namespace ringfall::compare {
namespace {

SessionPlan plan_of(int comments) {
  SessionPlan plan;
  for (int shot = 1; shot <= comments; ++shot) plan.said[{"a.wav", shot}] = Said{};
  plan.said[{"b.wav", 1}] = Said{};
  return plan;
}

TEST(CommentCount, AsManyOrNoneIsNothingToSay) {
  EXPECT_FALSE(comment_count_finding(plan_of(5), "a.wav", 5));
  EXPECT_FALSE(comment_count_finding(plan_of(0), "a.wav", 5));
}

TEST(CommentCount, MoreOrFewerThanShotsIsADoubt) {
  for (const std::size_t found : {4U, 6U}) {
    const auto finding = comment_count_finding(plan_of(5), "a.wav", found);
    ASSERT_TRUE(finding) << found;
    EXPECT_EQ(finding->code, "comments_unlike_shots");
    EXPECT_EQ(finding->severity, Severity::caution);
    EXPECT_NE(finding->sentence.find("a.wav: 5 comments"), std::string::npos);
  }
  EXPECT_NE(comment_count_finding(plan_of(5), "b.wav", 2)->sentence.find("1 comment (the last on shot 1), but 2 shots"),
            std::string::npos);
}

TEST(CommentCount, ANumberThatIsNoShotIsADoubt) {
  SessionPlan plan;
  plan.said[{"a.wav", 1}] = Said{};
  plan.said[{"a.wav", 3}] = Said{};
  EXPECT_TRUE(comment_count_finding(plan, "a.wav", 2));
}

}  // namespace
}  // namespace ringfall::compare
