// SPDX-License-Identifier: GPL-3.0-or-later
// The answer as data: statements, next step, ranking with ties, control of equal mass, ratings beside numbers. Made-up sessions whose truth is known.
#include "compare/answer.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "compare/comparison.h"
#include "compare/made_up_session.h"
#include "compare/rating_contrast.h"

namespace ringfall::compare {
namespace {

/// One block a letter, three shots 0.2 dB apart, blocks of a letter 0.1 dB apart; exposure and hum are `level` of their letter.
Session shot_as(const std::string& letters, const std::map<char, double>& level) {
  Session session;
  std::map<char, int> seen;
  for (const char letter : letters) {
    const double mean = level.at(letter) + 0.1 * (seen[letter]++ % 2);
    auto block = exposure_block(std::string(1, letter), static_cast<int>(session.blocks.size()) + 1, {mean - 0.2, mean, mean + 0.2});
    for (auto& entry : block.shots) entry.shot.hum = *entry.shot.levels.exposure_db;
    session.blocks.push_back(std::move(block));
  }
  return session;
}

TEST(Answer, SaysWhatIsLessAndWhatIsNotMeasured) {
  const auto comparison = compare_setups(shot_as("ABBAABBA", {{'A', 7.0}, {'B', 4.0}}), "A", "exposure_db");
  ASSERT_EQ(comparison.answers.size(), 1U);
  const Answer& answer = comparison.answers[0];
  EXPECT_EQ(answer.setup, "B");
  EXPECT_EQ(answer.against, "A");
  EXPECT_EQ(answer.loudness.change, Change::less);
  EXPECT_EQ(answer.loudness.sureness, Sureness::clear);
  EXPECT_NEAR(answer.loudness.from.value(), 7.05, 1e-9);
  EXPECT_NEAR(answer.loudness.to.value(), 4.05, 1e-9);
  EXPECT_EQ(answer.hum.change, Change::less);
  EXPECT_EQ(answer.ping.change, Change::no_number);
  EXPECT_FALSE(answer.ping.why_not.empty());
  EXPECT_FALSE(answer.main) << "it is the loudness";
  EXPECT_EQ(answer.next, NextStep::nothing);
}

TEST(Answer, WhatChangedOfTheChainIsTheNextStep) {
  auto session = shot_as("ABBAABBA", {{'A', 7.0}, {'B', 4.0}});
  for (auto& block : session.blocks) {
    if (block.setup == "B") block.file = "b.m4a";
  }
  const auto comparison = compare_setups(session, "A", "exposure_db");
  EXPECT_EQ(comparison.answers.at(0).next, NextStep::same_chain);
  EXPECT_EQ(std::ranges::count(comparison.answers[0].doubts, "format_changed"), 1);
}

// A and B alike, C 3 under both: C first, the others share the second place.
TEST(Ranking, TiesAreTies) {
  const auto session = shot_as("ABCCBAABCCBA", {{'A', 7.0}, {'B', 7.02}, {'C', 4.0}});
  const auto ranking = ranking_of(session, {"A", "B", "C"}, measure_of(*shot::find_number("exposure_db")));
  ASSERT_EQ(ranking.places.size(), 3U);
  EXPECT_EQ(ranking.pairs.size(), 3U);
  EXPECT_EQ(ranking.places[0].setup, "C");
  EXPECT_EQ(ranking.places[0].place, 1U);
  EXPECT_TRUE(ranking.places[0].tied_with.empty());
  EXPECT_EQ(ranking.places[1].place, 2U);
  EXPECT_EQ(ranking.places[2].place, 2U);
  EXPECT_EQ(ranking.places[1].tied_with, std::vector<std::string>{ranking.places[2].setup});
}

TEST(Control, IsTheEqualMassThatAddsNothingElse) {
  auto session = shot_as("ABCDDCBA", {{'A', 7.0}, {'B', 4.0}, {'C', 6.9}, {'D', 5.0}});
  session.setup_facts = {{"A", "", std::nullopt, std::nullopt}, {"B", "rubber damper", 0.100, std::nullopt},
                         {"C", "Dummy of brass", 0.104, std::nullopt}, {"D", "another damper", 0.100, std::nullopt}};
  const auto controls = equal_mass_controls(session, "A");
  ASSERT_EQ(controls.size(), 2U);
  EXPECT_EQ(controls[0].setup, "B");
  EXPECT_EQ(controls[0].control, "C");
  EXPECT_EQ(controls[1].setup, "D");
  const auto comparison = compare_setups(session, "A", "exposure_db");
  ASSERT_EQ(comparison.answers.size(), 5U);
  EXPECT_TRUE(comparison.answers[3].against_control);
  EXPECT_EQ(comparison.answers[3].against, "C");
  EXPECT_NEAR(comparison.answers[3].loudness.difference.value(), -2.9, 1e-9);
  // 110 g is another mass; without its word the dummy is any set-up.
  session.setup_facts[2].added_mass_kg = 0.110;
  EXPECT_TRUE(equal_mass_controls(session, "A").empty());
  session.setup_facts[2] = {"C", "of brass", 0.100, std::nullopt};
  EXPECT_TRUE(equal_mass_controls(session, "A").empty());
  session.setup_facts[2].only_mass = true;
  EXPECT_EQ(equal_mass_controls(session, "A").size(), 2U);
}

// Ratings that follow the set-ups, not the shots: they rank as the numbers do.
TEST(RatingContrast, RatingsRankTheSetUpsAsNumbersDo) {
  auto session = shot_as("ABBAABBA", {{'A', 7.0}, {'B', 4.0}});
  int k = 0;
  for (auto& block : session.blocks) {
    for (auto& entry : block.shots) {
      entry.said.hum = (block.setup == "A" ? 7.0 : 4.0) + (k++ % 2);
      entry.said.feel = 5.0 + (block.setup == "A" ? 3.0 : 0.0) + (k % 2);
    }
  }
  const auto contrasts = rating_contrasts(session, "A");
  ASSERT_EQ(contrasts.size(), 2U);
  EXPECT_EQ(contrasts[0].rating, "hum");
  EXPECT_EQ(contrasts[0].ranked, Ranked::same_way);
  EXPECT_EQ(contrasts[1].rating, "feel");
  EXPECT_EQ(contrasts[1].ranked, Ranked::opposite) << "a better feel with more hum";
  // Inside a set-up nothing of it is left to agree: that is the other question.
  for (auto& block : session.blocks) {
    for (auto& entry : block.shots) entry.shot.hum = 5.0;
    block.shots[0].shot.hum = 5.1;
  }
  EXPECT_EQ(rating_contrasts(session, "A")[0].ranked, Ranked::said_only);
}

}  // namespace
}  // namespace ringfall::compare
