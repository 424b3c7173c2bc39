// SPDX-License-Identifier: GPL-3.0-or-later
// What is said beside a main number: the doubt in the verdict, what would settle it, drift, permutation, what was left out.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "compare/made_up_session.h"
#include "report/sentences.h"

namespace ringfall::report {
namespace {

using compare::exposure_block;
using Values = std::vector<double>;

/// One block a letter, "A" the baseline: B is `effect` louder, shots scatter by `scatter`, blocks by `wander`.
compare::Session shot_in(const std::string& letters, double effect, double scatter, double wander = 0.0, std::size_t shots = 5) {
  compare::Session session;
  std::size_t seen[2] = {0, 0};
  for (std::size_t k = 0; k < letters.size(); ++k) {
    const std::size_t which = letters[k] == 'B' ? 1 : 0;
    const double level = (which == 1 ? effect : 0.0) + (seen[which]++ % 2 == 0 ? wander : -wander);
    Values values;
    for (std::size_t i = 0; i < shots; ++i) values.push_back(level + (i % 2 == 0 ? scatter : -scatter));
    session.blocks.push_back(exposure_block(std::string(1, letters[k]), static_cast<int>(k) + 1, values));
  }
  return session;
}

std::string main_of(const compare::Session& session) {
  const auto comparison = compare::compare_setups(session, "A", "exposure_db");
  return main_sentence(comparison.against[0], "A");
}

std::string cares_of(const compare::Session& session, std::optional<double> wanted = std::nullopt) {
  auto comparison = compare::compare_setups(session, "A", "exposure_db");
  comparison.wanted_difference = wanted;
  std::string all;
  for (const auto& sentence : care_sentences(comparison, comparison.against[0])) all += sentence + "\n";
  return all;
}

bool says(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

TEST(MainSentence, CountsAreNamedWithTheirSetUps) {
  auto session = shot_in("AB", 5.0, 0.3);
  session.blocks[1].shots.resize(3);
  EXPECT_TRUE(says(main_of(session), "(1 block of 'A', 1 block of 'B')")) << main_of(session);
  EXPECT_TRUE(says(main_of(shot_in("ABBA", 5.0, 0.3, 0.1)), "(2 blocks of 'A', 2 blocks of 'B'): clear.")) << main_of(shot_in("ABBA", 5.0, 0.3, 0.1));
}

// A A B B and one block each: what time did can't be told from the set-up, and the verdict itself says so.
TEST(MainSentence, TheVerdictCarriesTheDoubt) {
  const auto order = main_of(shot_in("AABB", 5.0, 0.3, 0.1));
  EXPECT_TRUE(says(order, "clear, but drift can't be told from it (order A A B B).")) << order;
  const auto block = main_of(shot_in("AB", 5.0, 0.3));
  EXPECT_TRUE(says(block, "seems so, from one block, but drift can't be told from it (one block each). Record both once more, in the order B A")) << block;
  const auto lonely = main_of(shot_in("ABA", 5.0, 0.3));
  EXPECT_TRUE(says(lonely, "(one block of 'B').")) << lonely;
  const auto same = main_of(shot_in("AABB", 0.0, 0.1, 0.05));
  EXPECT_TRUE(says(same, "no more than a small difference, but drift may have hidden one (order A A B B).")) << same;
}

TEST(MainSentence, OneBlockDoesNotSettleThatNothingIsHeard) {
  const auto one = main_of(shot_in("AB", 0.1, 0.2, 0.0, 8));
  EXPECT_TRUE(says(one, "not settled by blocks.")) << one;
  EXPECT_TRUE(says(one, "record both once more, in the order B A")) << one;
  const auto two = main_of(shot_in("ABBA", 0.1, 0.2, 0.05));
  EXPECT_TRUE(says(two, "no more than a small difference.")) << two;
}

TEST(MainSentence, WhatWouldSettleItIsAChance) {
  const auto said = main_of(shot_in("ABBA", 2.0, 0.3, 1.0));
  EXPECT_TRUE(says(said, "not settled. With ")) << said;
  EXPECT_TRUE(says(said, "in 8 of 10 such comparisons, if the true difference is as found.")) << said;
}

TEST(MainSentence, WhatCannotBeComparedSaysWhy) {
  auto session = shot_in("AB", 2.0, 0.3);
  for (auto& entry : session.blocks[1].shots) entry.shot.levels.exposure_db.reset();
  EXPECT_TRUE(says(main_of(session), "no session has a value of it with both")) << main_of(session);
}

// 2 of the 6 ways to name 2 + 2 blocks: 0.333; 2 of 70 for 4 + 4 is under 0.05 and needs no word.
TEST(Care, PermutationAndTheSmallestPOfTheDesign) {
  const auto few = cares_of(shot_in("ABBA", 5.0, 0.3, 0.1));
  EXPECT_TRUE(says(few, "comes with p 0.333; with so few blocks no p under 0.333 is possible that way.")) << few;
  const auto many = cares_of(shot_in("ABBAABBA", 5.0, 0.3, 0.1));
  EXPECT_TRUE(says(many, "comes with p 0.029.")) << many;
}

// 12 shots that rise steadily, A B A B: surely a drift, and 3/11 of it is in the difference.
TEST(Care, DriftSaysHowSure) {
  compare::Session session;
  double level = 0.0;
  for (const char letter : std::string("ABAB")) {
    session.blocks.push_back(exposure_block(std::string(1, letter), static_cast<int>(session.blocks.size()) + 1, {level, level + 1.0, level + 2.0}));
    level += 3.0;
  }
  const auto said = cares_of(session);
  EXPECT_TRUE(says(said, "It seems to have drifted by +11.0")) << said;
  EXPECT_TRUE(says(said, "since the shots of one block share its luck")) << said;
  EXPECT_TRUE(says(said, "if it did so steadily, +3.0")) << said;
  // Four shots: no interval, so no part of the difference either.
  for (auto& block : session.blocks) block.shots.resize(1);
  const auto few = cares_of(session);
  EXPECT_TRUE(says(few, "Whether it drifted can't be said")) << few;
  EXPECT_FALSE(says(few, "of the difference is drift")) << few;
  const auto still = cares_of(shot_in("ABAB", 5.0, 0.5));
  EXPECT_TRUE(says(still, "Whether it drifted is not settled")) << still;
  EXPECT_FALSE(says(still, "of the difference is drift")) << still;
}

// Cohen's table: an effect of one deviation needs 17 a group for 80 %. Two blocks sqrt(2) apart have deviation 1.
TEST(Care, AStatedDifferenceSaysWhatIsStillNeeded) {
  const auto session = shot_in("ABBA", 2.0, 0.0, std::sqrt(0.5));
  EXPECT_TRUE(says(cares_of(session, 1.0), "with 17 blocks each: 15 more of 'A' and 15 more of 'B' are needed.")) << cares_of(session, 1.0);
  EXPECT_TRUE(says(cares_of(session, 50.0), "they are there.")) << cares_of(session, 50.0);
  EXPECT_FALSE(says(cares_of(session), "in 8 of 10"));
}

TEST(Care, WhatWasLeftOut) {
  auto session = shot_in("ABBA", 5.0, 0.3, 0.1);
  session.blocks[1].dropped_shots.push_back(exposure_block("B", 2, {50.0}).shots[0]);
  EXPECT_TRUE(says(cares_of(session), "With what was left out the difference would be")) << cares_of(session);
  session.blocks[1].dropped_shots[0].shot.levels.exposure_db.reset();
  EXPECT_TRUE(says(cares_of(session), "What was left out has no value of")) << cares_of(session);
}

}  // namespace
}  // namespace ringfall::report
