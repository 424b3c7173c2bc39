// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/sentences.h"

#include <gtest/gtest.h>

#include <memory>

namespace ringfall::report {
namespace {

compare::NumberDifference row(const char* id, double difference, double low, double high) {
  compare::NumberDifference made;
  made.number = std::make_shared<const compare::Measure>(compare::measure_of(*shot::find_number(id)));
  stats::Difference found;
  found.difference = difference;
  found.interval = {low, high};
  made.difference = found;
  return made;
}

std::string about(double early, double late, compare::Verdict late_verdict = compare::Verdict::measurable) {
  compare::SetUpComparison against;
  against.setup = "plug";
  against.numbers = {row("early_s", early, early - 0.01, early + 0.01), row("late_s", late, late - 0.01, late + 0.01)};
  against.numbers[1].verdict = late_verdict;
  const auto sentences = ring_down_sentences(against, "bare");
  return sentences.size() == 1 ? sentences.front() : "";
}

TEST(Sentences, SignsAreShownButNoNegativeZero) {
  EXPECT_EQ(signed_number(1.25, 1), "+1.2");
  EXPECT_EQ(signed_number(-0.34, 1), "-0.3");
  EXPECT_EQ(signed_number(-0.04, 1), "0.0");
  EXPECT_EQ(signed_number(0.0, 2), "0.00");
}

TEST(Sentences, DiesFasterButLastsLonger) {
  EXPECT_NE(about(-0.05, 0.08).find("dies faster but lasts longer"), std::string::npos);
  EXPECT_NE(about(0.05, -0.08).find("dies slower at first but ends sooner"), std::string::npos);
  EXPECT_NE(about(-0.05, -0.08).find("dies faster in both parts"), std::string::npos);
  EXPECT_NE(about(0.05, 0.08).find("dies slower in both parts"), std::string::npos);
}

// An interval that holds 0 says neither that it changed nor that it did not.
TEST(Sentences, AnIntervalThatHoldsZeroIsNotSettled) {
  EXPECT_EQ(about(-0.005, 0.005), "plug against 'bare', A-weighted: whether early or late ring-down changed is not settled.");
  EXPECT_NE(about(-0.05, 0.005).find("whether late ring-down changed is not settled"), std::string::npos);
  EXPECT_NE(about(-0.005, 0.05).find("whether early ring-down changed is not settled"), std::string::npos);
}

// What only its own p carries, among so many numbers, is no ground for "dies faster but lasts longer".
TEST(Sentences, AHintIsSaidToBeOne) {
  const auto said = about(-0.05, 0.08, compare::Verdict::hint);
  EXPECT_EQ(said.find("dies faster"), std::string::npos) << said;
  EXPECT_NE(said.find("late ring-down +0.080 s (95 % interval +0.070 to +0.090), a hint, may be chance"), std::string::npos) << said;
}

TEST(Sentences, WithoutRingDownNothingIsSaid) {
  compare::SetUpComparison against;
  against.numbers = {row("hum", -1.0, -2.0, -0.5)};
  EXPECT_TRUE(ring_down_sentences(against, "bare").empty());
}

TEST(Sentences, Lists) {
  EXPECT_EQ(listed({}), "");
  EXPECT_EQ(listed({"a"}), "a");
  EXPECT_EQ(listed({"a", "b", "c"}), "a, b and c");
}

}  // namespace
}  // namespace ringfall::report
