// SPDX-License-Identifier: GPL-3.0-or-later
// How warm it was is held against what was said only; what nobody said is said to be unsaid, once. 5 C: comparison.md#confounders.
#include "compare/air_doubts.h"

#include <gtest/gtest.h>

namespace ringfall::compare {
namespace {

std::string doubts_text(const std::vector<AirOfSession>& sessions) {
  std::string text;
  for (const Finding& doubt : air_doubts(sessions)) text += doubt.code + ": " + doubt.sentence + "\n";
  return text;
}

TEST(AirDoubts, SaidTemperaturesAreHeldAgainstEachOther) {
  EXPECT_EQ(doubts_text({}), "");
  EXPECT_EQ(doubts_text({{1, 15.0, false}, {2, 20.0, false}}), "");
  const std::string differs = doubts_text({{1, 15.0, true}, {2, 20.1, true}, {3, 12.0, true}});
  EXPECT_EQ(differs.rfind("temperature_differs: Shot between 12 and 20 C", 0), 0U) << differs;
  EXPECT_EQ(differs.find("not_said"), std::string::npos) << differs;
}

// The assumed 20 C are no word: against 2 C they would be a difference.
TEST(AirDoubts, UnsaidIsHeldAgainstNothingAndSaidOnce) {
  const std::string unsaid = doubts_text({{1, 2.0, true}, {2, {}, false}, {2, {}, true}, {4, {}, false}});
  EXPECT_EQ(unsaid.rfind("temperature_not_said: Nobody said how warm the air was in sessions 2, 4:", 0), 0U) << unsaid;
  EXPECT_NE(unsaid.find("reckoned for 20 C"), std::string::npos) << unsaid;
  EXPECT_EQ(unsaid.find("temperature_differs"), std::string::npos) << unsaid;
  const std::string without_speeds = doubts_text({{1, {}, false}, {2, {}, false}});
  EXPECT_NE(without_speeds.find("in sessions 1, 2:"), std::string::npos);
  EXPECT_EQ(without_speeds.find("reckoned"), std::string::npos) << "no arrow speed is there";
  EXPECT_EQ(doubts_text({{3, {}, true}, {3, {}, true}}), "") << "within a session nothing is held against another warmth";
}

}  // namespace
}  // namespace ringfall::compare
