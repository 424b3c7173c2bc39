// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/words_against_numbers.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "compare/made_up_session.h"
#include "shot/numbers.h"
#include "stats/random.h"

namespace ringfall::compare {
namespace {

struct Heard {
  Aspect aspect;
  int direction;
  bool operator==(const Heard&) const = default;
};

std::vector<Heard> heard(const char* comment) {
  std::vector<Heard> all;
  for (const auto& said : words_said(comment)) all.push_back({said.aspect, said.direction});
  return all;
}

// What the words are about: common practice, no source.
TEST(Words, ListFindsAspectAndDirection) {
  EXPECT_EQ(heard("less hum"), (std::vector<Heard>{{Aspect::hum, -1}}));
  EXPECT_EQ(heard("Dead!"), (std::vector<Heard>{{Aspect::hum, -1}, {Aspect::ping, -1}}));
  EXPECT_TRUE(heard("same hum, slight ping").empty()) << "neither much nor little";
  EXPECT_EQ(heard("a bit tinny"), (std::vector<Heard>{{Aspect::ping, 1}}));
  EXPECT_EQ(heard("No ping, loud"), (std::vector<Heard>{{Aspect::ping, -1}, {Aspect::loudness, 1}}));
  EXPECT_EQ(heard("not so loud"), (std::vector<Heard>{{Aspect::loudness, -1}}));
  EXPECT_EQ(heard("not less loud"), (std::vector<Heard>{{Aspect::loudness, 1}}));
  EXPECT_EQ(heard("no, hums"), (std::vector<Heard>{{Aspect::hum, 1}}));
  EXPECT_EQ(heard("humidity, pinged"), (std::vector<Heard>{}));
  EXPECT_EQ(heard(""), (std::vector<Heard>{}));
  EXPECT_EQ(words_said("much less hum").at(0).words, "less hum");
}

TEST(Words, EveryWordIsLowerCaseAndItsNumberIsKnown) {
  for (const auto& meaning : word_list()) {
    EXPECT_TRUE(std::ranges::all_of(meaning.word, [](char c) { return (c >= 'a' && c <= 'z') || c == '\''; })) << meaning.word;
    const auto id = aspect_number(meaning.aspect);
    EXPECT_TRUE(id.empty() || shot::find_number(id)) << id;
    EXPECT_TRUE(meaning.direction == 1 || meaning.direction == -1);
  }
}

/// Shots of the given hums, with what was said of each.
Session hums(const std::vector<std::pair<double, std::string>>& shots) {
  Session session;
  session.blocks.push_back(exposure_block("A", 1, std::vector<double>(shots.size(), -40.0)));
  for (std::size_t k = 0; k < shots.size(); ++k) {
    session.blocks[0].shots[k].shot.hum = shots[k].first;
    session.blocks[0].shots[k].said.words = shots[k].second;
  }
  return session;
}

TEST(Words, ShotByShotAgreesDisagreesOrNeither) {
  // Median 4; 0.5 points are noticeable.
  const auto checks = word_checks(hums({{2.0, "less hum"}, {6.0, "no hum"}, {4.4, "no hum"}, {4.0, "kicks"}, {3.0, ""}}));
  ASSERT_EQ(checks.size(), 4U);
  EXPECT_EQ(checks[0].outcome, WordOutcome::agrees);
  EXPECT_EQ(checks[1].outcome, WordOutcome::disagrees);
  EXPECT_EQ(checks[2].outcome, WordOutcome::between);
  EXPECT_EQ(checks[3].outcome, WordOutcome::no_number);
  EXPECT_DOUBLE_EQ(checks[0].middle.value(), 4.0);
  // Words change no number.
  EXPECT_DOUBLE_EQ(checks[1].value.value(), 6.0);
}

// (12, 2, 1, 12, 2) against (1, 4, 7, 1, 0): tau-b -0.4714045, p 0.2827455 by the normal approximation (scipy.stats.kendalltau's worked
// example, also R); Spearman by hand from mean ranks 4.5 2.5 1 4.5 2.5 / 2.5 4 5 2.5 1: -5 / sqrt(9 * 9.5) = -0.5407381.
TEST(Words, RatingsAreHeldAgainstNumbersByRank) {
  auto session = hums({{1.0, ""}, {4.0, ""}, {7.0, ""}, {1.0, ""}, {0.0, ""}});
  const double said[] = {10.0, 2.0, 1.0, 10.0, 2.0};
  for (std::size_t k = 0; k < 5; ++k) session.blocks[0].shots[k].said.hum = said[k];
  const auto agreements = rating_agreements(session, "hum");
  ASSERT_EQ(agreements.size(), 1U);
  EXPECT_EQ(agreements[0].number->id, "hum");
  EXPECT_NEAR(agreements[0].rank.value().coefficient, -0.4714045, 1e-7);
  EXPECT_NEAR(agreements[0].spearman.value().coefficient, -0.5407381, 1e-7);
  EXPECT_EQ(agreements[0].setup_count, 1U);
  EXPECT_FALSE(agreements[0].over_setups);
  // By hand: 3 + ((1.95996 + 0.84162 sqrt(1 + 0.5407^2 / 2)) / artanh 0.5407)^2 = 25.35.
  EXPECT_EQ(agreements[0].pairs_needed.value(), 26U);
}

// Hum 1 .. 6 by block and ratings 2 1 4 3 6 5, alike throughout each block of three: 18 pairs that tell as much as 6. Spearman of the six
// (ties do not change it) 1 - 6 * 6 / (6 * 35) = 0.82857; t = 0.82857 sqrt(5) with 4 degrees of freedom: p 0.14. By hand: 3 + ((1.95996 + 0.84162
// sqrt(1 + 0.82857^2 / 2)) / artanh 0.82857)^2 = 9.15: 10 single pairs; 16 at least, 48 in threes.
TEST(Words, ShotsOfABlockShareItsLuck) {
  Session session;
  const double said[] = {2.0, 1.0, 4.0, 3.0, 6.0, 5.0};
  for (int block = 0; block < 6; ++block) {
    session.blocks.push_back(exposure_block("A", block + 1, {-40.0, -41.0, -42.0}));
    for (auto& entry : session.blocks.back().shots) {
      entry.shot.hum = block + 1.0;
      entry.said.hum = said[block];
    }
  }
  const auto agreements = rating_agreements(session, "hum");
  ASSERT_EQ(agreements.size(), 1U);
  EXPECT_NEAR(agreements[0].effective_pairs, 6.0, 1e-9);
  EXPECT_NEAR(agreements[0].spearman.value().coefficient, 0.8285714, 1e-7);
  EXPECT_NEAR(agreements[0].spearman->p, 0.14, 0.005);
  EXPECT_EQ(agreements[0].pairs_needed.value(), 48U);
}

/// Evenings on which ratings and hum have nothing to do with each other but both rise and fall from one evening to the next.
Session unrelated_evenings(stats::Random& random) {
  Session session;
  for (int evening = 1; evening <= 3; ++evening) {
    const double said_then = 2.0 * random.normal();
    const double hum_then = 2.0 * random.normal();
    for (int block = 0; block < 6; ++block) {
      session.blocks.push_back(exposure_block("A", 6 * evening + block, {-40.0, -41.0, -42.0}));
      session.blocks.back().session = evening;
      const double said_here = said_then + 0.7 * random.normal();
      const double hum_here = hum_then + 0.7 * random.normal();
      for (auto& entry : session.blocks.back().shots) {
        entry.shot.hum = hum_here + random.normal();
        entry.said.hum = said_here + random.normal();
      }
    }
  }
  return session;
}

// No more than 5 in 100 may be called agreement or contradiction (300 runs: 3 errors 3.8 %); without minding the evening it is a quarter.
TEST(Words, WhatChangesFromEveningToEveningIsNoAgreement) {
  stats::Random random(20240711);
  int claimed = 0;
  constexpr int kRuns = 300;
  for (int run = 0; run < kRuns; ++run) claimed += rating_agreements(unrelated_evenings(random), "hum").at(0).rank.value().p < 0.05 ? 1 : 0;
  EXPECT_LE(claimed, 0.088 * kRuns);
}

// By hand: evening 1 hum 1 2 3 said 1 2 3, evening 2 hum 11 12 13 said 1 2 3: within the evenings the same order throughout.
TEST(Words, AgreementIsLookedForWithinEvenings) {
  Session session;
  for (int evening = 1; evening <= 2; ++evening) {
    session.blocks.push_back(exposure_block(evening == 1 ? "A" : "B", evening, {-40.0, -41.0, -42.0}));
    session.blocks.back().session = evening;
    for (std::size_t k = 0; k < 3; ++k) {
      session.blocks.back().shots[k].shot.hum = (evening == 1 ? 1.0 : 11.0) + static_cast<double>(k);
      session.blocks.back().shots[k].said.hum = 1.0 + static_cast<double>(k);
    }
  }
  const auto agreements = rating_agreements(session, "hum");
  EXPECT_DOUBLE_EQ(agreements.at(0).rank.value().coefficient, 1.0);
  EXPECT_EQ(agreements[0].measured[3], 11.0) << "what is shown stays as it was measured";
  EXPECT_FALSE(agreements[0].over_setups) << "each set-up's evening is all there is of it";
}

// Blocks that were only rated as a whole are pairs with the mean of their shots; a block with rated shots is not counted twice.
TEST(Words, WhatIsSaidOfABlockIsHeldAgainstItsMean) {
  Session session;
  for (int number = 1; number <= 3; ++number) {
    session.blocks.push_back(exposure_block(number == 2 ? "B" : "A", number, {-40.0, -41.0}));
    auto& block = session.blocks.back();
    for (std::size_t k = 0; k < 2; ++k) block.shots[k].shot.hum = 2.0 * number + static_cast<double>(k);  // means 2.5, 4.5, 6.5
    block.said.hum = 2.0 * number;
    block.said.words = number == 3 ? "dead" : "";
  }
  session.blocks[1].shots[0].said.hum = 5.0;
  session.blocks[1].shots[0].said.blind = true;
  const auto agreements = rating_agreements(session, "hum");
  ASSERT_EQ(agreements.size(), 1U);
  EXPECT_EQ(agreements[0].said, (std::vector<double>{2.0, 5.0, 6.0}));
  EXPECT_EQ(agreements[0].measured, (std::vector<double>{2.5, 4.0, 6.5}));
  EXPECT_EQ(agreements[0].blocks, 2U);
  EXPECT_EQ(agreements[0].blind, 1U);
  EXPECT_DOUBLE_EQ(agreements[0].rank.value().coefficient, 1.0);
  // "dead" is little hum: 6.5 lies above the middle of all six shots, 4.5.
  const auto checks = word_checks(session);
  ASSERT_FALSE(checks.empty());
  EXPECT_EQ(checks[0].number, 0);
  EXPECT_EQ(checks[0].id, 3);
  EXPECT_DOUBLE_EQ(checks[0].value.value(), 6.5);
  EXPECT_EQ(checks[0].outcome, WordOutcome::disagrees);
}

TEST(Words, AColumnGoesWithARatingByAWholeWord) {
  Session session;
  session.columns = {{"thump", "dB"}, {"Hum level", "dB"}};
  session.blocks.push_back(exposure_block("A", 1, {-40.0, -41.0, -42.0}));
  for (std::size_t k = 0; k < 3; ++k) {
    auto& entry = session.blocks[0].shots[k];
    entry.values = {static_cast<double>(3 - k), static_cast<double>(k)};
    entry.said.hum = static_cast<double>(k);
    entry.said.ping = static_cast<double>(k);
  }
  const auto agreements = rating_agreements(session, "thump");
  ASSERT_EQ(agreements.size(), 2U);
  EXPECT_EQ(agreements[0].rating, "hum");
  EXPECT_EQ(agreements[0].number->id, "Hum level");
  EXPECT_TRUE(agreements[0].direction_known);
  EXPECT_EQ(agreements[1].rating, "ping");
  EXPECT_EQ(agreements[1].number->id, "thump") << "the main number, when no column speaks of it";
  EXPECT_FALSE(agreements[1].direction_known);
}

TEST(Words, ADroppedBlockSaysNothing) {
  auto session = hums({{1.0, "hums"}, {2.0, "dead"}});
  session.blocks[0].dropped = "wind";
  EXPECT_TRUE(word_checks(session).empty());
}

}  // namespace
}  // namespace ringfall::compare
