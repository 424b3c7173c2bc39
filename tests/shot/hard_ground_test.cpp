// SPDX-License-Identifier: GPL-3.0-or-later
// A small part of the table of docs/measures/hard_ground.md, with seeds of its own.
#include <gtest/gtest.h>

#include "hard_ground/kinds.h"
#include "hard_ground/verdict.h"

namespace ringfall::hard_ground {
namespace {

constexpr std::uint64_t kSeed = 90210;
constexpr int kRecordings = 2;

class HardGround : public testing::TestWithParam<std::size_t> {};

TEST_P(HardGround, IsNamedAndNothingIsWrongWithoutAWordSlowUnderSanitizer) {
  const Kind& kind = kinds()[GetParam()];
  for (int k = 0; k < kRecordings; ++k) {
    const Scene scene = kind.make(kSeed + static_cast<std::uint64_t>(k));
    const auto shots = render(scene);
    const Heard heard = hear(scene, shots);
    if (kind.expected.empty()) {
      for (const std::string& code : fault_codes()) EXPECT_FALSE(said(heard, code)) << kind.name << ": " << code;
    } else {
      EXPECT_TRUE(said(heard, kind.expected)) << kind.name;
    }
    int wrong = 0;
    int right = 0;
    for (std::size_t n = 0; n < shots.size(); ++n) {
      for (const Judged& one : judge(heard, heard.shots[n], shots[n].truth)) {
        if (one.outcome == Outcome::wrong) ++wrong;
        if (one.outcome == Outcome::right) ++right;
      }
    }
    EXPECT_EQ(wrong, 0) << kind.name << " seed " << scene.seed;
    if (kind.expected.empty() && scene.lag_s > 0.3 && !scene.lossy) {
      EXPECT_GE(right, 6 * scene.shots) << kind.name << ": of 7 numbers a shot";
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Kinds, HardGround, testing::Range<std::size_t>(0, kinds().size()));

}  // namespace
}  // namespace ringfall::hard_ground
