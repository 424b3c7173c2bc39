// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/said_agreement.h"

#include <gtest/gtest.h>

#include "report/example_report.h"

namespace ringfall::report {
namespace {

const Agreement* about(const std::vector<Agreement>& all, const std::string& rating) {
  for (const auto& agreement : all) {
    if (agreement.rating == rating) return &agreement;
  }
  return nullptr;
}

/// One set-up whose hum is 1, 2, 3 ... and whose ratings are given.
compare::Session rated(const std::vector<double>& ratings) {
  compare::Session session;
  session.blocks.emplace_back();
  session.blocks[0].setup = "bare";
  for (std::size_t k = 0; k < ratings.size(); ++k) {
    compare::SessionShot entry;
    entry.shot.hum = static_cast<double>(k) + 1.0;
    entry.said.hum = ratings[k];
    session.blocks[0].shots.push_back(entry);
  }
  return session;
}

TEST(Agreement, TheSameOrderAgrees) {
  const auto all = agreements(rated({1, 2, 3, 4, 5, 7, 6, 8}));
  ASSERT_EQ(all.size(), 1U);
  ASSERT_TRUE(all[0].rank);
  // By hand: 28 pairs, one discordant: (27 - 1) / 28.
  EXPECT_NEAR(all[0].rank->coefficient, 26.0 / 28.0, 1e-12);
  EXPECT_NE(all[0].sentence.find("they agree in order"), std::string::npos);
}

TEST(Agreement, AnIntervalThatHoldsZeroIsNotSettled) {
  const auto all = agreements(rated({4, 1, 3, 2, 5, 3, 1, 4}));
  ASSERT_TRUE(all[0].rank && all[0].rank->interval);
  ASSERT_TRUE(all[0].rank->interval->contains(0.0));
  EXPECT_NE(all[0].sentence.find("not settled"), std::string::npos);
}

TEST(Agreement, TheOppositeOrderIsAContradiction) {
  const auto all = agreements(rated({8, 7, 6, 5, 4, 2, 3, 1}));
  EXPECT_NE(all[0].sentence.find("contradict"), std::string::npos);
}

TEST(Agreement, ABetterFeelGoesWithLessHum) {
  auto session = rated({1, 2, 3, 4, 5, 7, 6, 8});
  for (auto& entry : session.blocks[0].shots) entry.said.feel = 10.0 - *entry.said.hum;
  const auto all = agreements(session);
  ASSERT_NE(about(all, "feel"), nullptr);
  EXPECT_NE(about(all, "feel")->sentence.find("the more hum, the worse the feel (8 shots)."), std::string::npos);
  EXPECT_EQ(about(all, "loud"), nullptr);
}

// The hum of six blocks is 1 .. 6, and so is the rating of each: 18 shots tell no more than 6 do (stats.BlockedRank.WholeBlocksCountOnce).
TEST(Agreement, ShotsOfABlockShareItsLuck) {
  compare::Session session;
  for (int block = 1; block <= 6; ++block) {
    session.blocks.push_back(rated({1, 1, 1}).blocks[0]);
    for (auto& entry : session.blocks.back().shots) {
      entry.shot.hum = block;
      entry.said.hum = block == 6 ? 4.5 : block;  // 1 2 3 4 4.5 5 would be the same order
    }
  }
  const auto all = agreements(session);
  ASSERT_EQ(all.size(), 1U);
  EXPECT_NEAR(all[0].effective_pairs, 6.0, 1e-9);
  EXPECT_NE(all[0].sentence.find("(18 shots; sharing the luck of their blocks they tell as much as 6)"), std::string::npos) << all[0].sentence;
}

TEST(Agreement, TwoShotsHaveNoOrderToCompare) {
  const auto all = agreements(rated({1, 2}));
  ASSERT_EQ(all.size(), 1U);
  EXPECT_FALSE(all[0].rank);
  EXPECT_NE(all[0].sentence.find("no order to compare"), std::string::npos);
}

TEST(Agreement, DroppedBlocksDoNotCount) {
  auto session = rated({1, 2, 3});
  session.blocks[0].dropped = "wind";
  EXPECT_TRUE(agreements(session).empty());
}

TEST(Agreement, WholeBlocksAndBlindOnesAreCounted) {
  auto session = rated({1, 2, 3});
  session.blocks.push_back(session.blocks[0]);
  session.blocks[1].said.hum = 2.0;
  for (auto& entry : session.blocks[1].shots) entry.said.hum.reset();
  session.blocks[0].shots[1].said.blind = true;
  EXPECT_TRUE(agreements(session)[0].sentence.ends_with("(3 shots and 1 whole block, 1 said blind).")) << agreements(session)[0].sentence;
}

/// Hum 1 .. 9 has its middle at 5: "no hum" fits 1 and contradicts 8, "hums" fits 7; 5 lies too near.
TEST(Agreement, ShotsWhoseWordsDisagreeStandFirst) {
  auto session = rated({1, 2, 3, 4, 5, 6, 7, 8, 9});
  auto& shots = session.blocks[0].shots;
  for (std::size_t k = 0; k < shots.size(); ++k) {
    shots[k].id = static_cast<std::int64_t>(k) + 1;
    shots[k].shot.number = static_cast<int>(k) + 1;
  }
  shots[0].said.words = "no hum";
  shots[4].said.words = "hums";
  shots[6].said.words = "hums";
  shots[7].said.words = "no hum";
  const auto lines = word_check_lines(compare::word_checks(session));
  ASSERT_EQ(lines.size(), 3U);
  EXPECT_EQ(lines[0], "shot 8 ('bare'), 'no hum' (hum): hum 8.0 points, middle of all shots 5.0: disagrees.");
  EXPECT_EQ(lines[1], "hum, agree: 'hums' shot 7; 'no hum' shot 1.");
  EXPECT_EQ(lines[2], "hum, too near the middle to say: 'hums' shot 5.");
  EXPECT_TRUE(word_check_lines({}).empty());
}

}  // namespace
}  // namespace ringfall::report
