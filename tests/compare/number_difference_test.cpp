// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/number_difference.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "compare/comparison.h"
#include "compare/made_up_session.h"

namespace ringfall::compare {
namespace {

const NumberDifference& row_of(const Comparison& comparison, const std::string& id, std::size_t setup = 0) {
  const auto& numbers = comparison.against.at(setup).numbers;
  const auto found = std::ranges::find_if(numbers, [&](const auto& row) { return row.number->id == id; });
  if (found == numbers.end()) throw std::runtime_error("no " + id);
  return *found;
}

Measure measure(const char* id) { return measure_of(*shot::find_number(id)); }

/// Blocks of one shot each, `step` apart within a set-up, B `effect` over A; ring-down, of which nobody knows what is noticeable.
Session late_ring_down(const std::string& letters, double step, double effect, int session = 1) {
  Session made;
  std::size_t seen[2] = {0, 0};
  for (const char letter : letters) {
    const std::size_t which = letter == 'A' ? 0 : 1;
    auto block = exposure_block(std::string(1, letter), static_cast<int>(made.blocks.size()) + 1, {0.0}, session);
    block.shots[0].shot.ring_down.late_s = 10.0 * session + step * static_cast<double>(seen[which]++) + (which == 1 ? effect : 0.0);
    made.blocks.push_back(block);
  }
  return made;
}

// Hum is void in one of the two blocks of A: it has one block there, though the exposure has two; one degree of freedom (B's blocks) is too
// few to know how blocks wander.
TEST(NumberDifference, BlocksAreCountedByTheValuesOfEachNumber) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3}), exposure_block("B", 2, {4, 5, 6}), exposure_block("B", 3, {5, 6, 7}),
                    exposure_block("A", 4, {2, 3, 4})};
  for (std::size_t k = 0; k < 3; ++k) {
    for (std::size_t i = 0; i < 3; ++i) session.blocks[k].shots[i].shot.hum = 1.0 + static_cast<double>(k) + 0.5 * static_cast<double>(i);
  }
  for (const char* main : {"exposure_db", "hum"}) {
    const auto comparison = compare_setups(session, "A", main);
    EXPECT_EQ(row_of(comparison, "exposure_db").rests.ground, Ground::repeated_blocks) << main;
    EXPECT_EQ(row_of(comparison, "exposure_db").difference.value().df, 2.0) << main;
    const auto& hum = row_of(comparison, "hum");
    EXPECT_EQ(hum.rests.ground, Ground::assumed_wander) << main;
    EXPECT_EQ(hum.rests.blocks_df, 1.0);
    EXPECT_EQ(hum.baseline.n, 3U);
    EXPECT_EQ(hum.baseline.blocks, 1U);
    EXPECT_EQ(hum.setup.n, 6U);
    EXPECT_EQ(hum.setup.blocks, 2U);
  }
}

// By hand: 1 .. 8 against 3 .. 10: variances 6 (so have the other evenings' shots), difference 2, one block each: standard error
// sqrt(2 (0.49 + 1 / 8) 6), 4 degrees of freedom. What the other evenings hold is neither counted nor shown.
TEST(NumberDifference, OnlyTheSessionWithBothCountsAndIsShown) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3, 4, 5, 6, 7, 8}, 1), exposure_block("B", 2, {3, 4, 5, 6, 7, 8, 9, 10}, 1),
                    exposure_block("A", 3, {51, 52, 53, 54, 55, 56, 57, 58}, 2), exposure_block("B", 4, {93, 94, 95, 96, 97, 98, 99, 100}, 3)};
  const auto row = difference_of(session, "A", "B", measure("exposure_db"));
  EXPECT_EQ(row.sessions, 1U);
  EXPECT_EQ(row.baseline.n, 8U);
  EXPECT_EQ(row.setup.n, 8U);
  EXPECT_NEAR(row.baseline.mean.value(), 4.5, 1e-12);
  EXPECT_NEAR(row.setup.mean.value(), 6.5, 1e-12);
  EXPECT_NEAR(row.setup.deviation.value(), std::sqrt(6.0), 1e-12);
  EXPECT_NEAR(row.difference.value().difference, 2.0, 1e-12);
  EXPECT_NEAR(row.difference->standard_error, std::sqrt(7.38), 1e-12);
  EXPECT_NEAR(row.difference->df, 4.0, 1e-9);
  // Mean of one block: t(0.975, 4) = 2.776445 (table) times sqrt(3.69).
  EXPECT_NEAR(row.setup.interval.value().high, 6.5 + 2.776445 * std::sqrt(3.69), 1e-5);
}

// Blocks of unlike size: block means 2, 10 and 4, 6; over shots 4 and 5.33 would be shown, which say the reverse.
TEST(NumberDifference, ShownMeansSubtractToTheDifference) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3}), exposure_block("B", 2, {4}), exposure_block("B", 3, {5, 7}), exposure_block("A", 4, {10})};
  const auto one = difference_of(session, "A", "B", measure("exposure_db"));
  EXPECT_NEAR(one.baseline.mean.value(), 6.0, 1e-12);
  EXPECT_NEAR(one.setup.mean.value(), 5.0, 1e-12);
  EXPECT_NEAR(one.difference.value().difference, -1.0, 1e-12);
  // Nested analysis of variance by hand: between blocks 48 + 8/3 over 2, n0 = (4 - 10/4 + 3 - 5/3) / 2 = 1.41667, within 4/3; a mean of two
  // blocks of 1.41 shots has the variance 17.885 / 2, t(0.975, 2) = 4.302653.
  EXPECT_NEAR(one.setup.interval.value().half_width(), 4.302653 * std::sqrt(17.885 / 2.0), 0.01);
  // A second evening 100 dB higher, A A B: weights 2 * 2 / 4 and 2 * 1 / 3, by hand (6 + 101 * 2/3) / (5/3) and (5 + 104 * 2/3) / (5/3).
  session.blocks.push_back(exposure_block("A", 5, {100}, 2));
  session.blocks.push_back(exposure_block("A", 6, {102}, 2));
  session.blocks.push_back(exposure_block("B", 7, {104}, 2));
  const auto two = difference_of(session, "A", "B", measure("exposure_db"));
  EXPECT_NEAR(two.baseline.mean.value(), (6.0 + 101.0 * 2.0 / 3.0) / (5.0 / 3.0), 1e-9);
  EXPECT_NEAR(two.setup.mean.value() - two.baseline.mean.value(), two.difference.value().difference, 1e-9);
  EXPECT_FALSE(two.robust);  // sessions have levels of their own: their shots are not thrown together
  EXPECT_TRUE(one.robust);
}

TEST(NumberDifference, ShotsWithoutAValueDoNotCount) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3}), exposure_block("B", 2, {4, 5, 6})};
  session.blocks[1].shots[0].shot.levels.exposure_db.reset();
  EXPECT_EQ(difference_of(session, "A", "B", measure("exposure_db")).setup.n, 2U);
}

// Cohen 1988, table 2.4.1: an effect of 0.8 deviations is found with 80 % by 26 a group (exactly 25.5, tests/stats/power_test.cpp).
TEST(NumberDifference, UnitsToSettleAreThoseOfThePowerTable) {
  // Two blocks of a set-up sqrt(2) apart have deviation 1.
  const auto one = difference_of(late_ring_down("ABBA", std::sqrt(2.0), 0.8), "A", "B", measure("late_s"));
  EXPECT_NEAR(one.unit_deviation.value(), 1.0, 1e-9);
  EXPECT_EQ(one.units_to_settle, 26U);
  EXPECT_EQ(units_for_difference(one, 0.8).value().each, 26U);
  EXPECT_EQ(units_for_difference(one, -0.5).value().each, 64U);  // Cohen
  EXPECT_EQ(units_for_difference(one, 0.8)->more_setup, 24U);
  // Two evenings that agree exactly: their own variance is 0, beside it twice the blocks' with two degrees of freedom: 4 / 3 (by hand).
  Session evenings = late_ring_down("ABBA", std::sqrt(2.0), 0.8 * std::sqrt(4.0 / 3.0));
  for (const auto& block : late_ring_down("ABBA", std::sqrt(2.0), 0.8 * std::sqrt(4.0 / 3.0), 2).blocks) evenings.blocks.push_back(block);
  const auto two = difference_of(evenings, "A", "B", measure("late_s"));
  EXPECT_NEAR(two.unit_deviation.value(), std::sqrt(4.0 / 3.0), 1e-9);
  EXPECT_EQ(two.units_to_settle, 26U);
}

// A difference as large as its interval's half width is nearly settled by what is there; yet one more is needed, not fewer.
TEST(NumberDifference, AtLeastOneMoreThanThereIs) {
  // By hand: 4 + 4 blocks of one shot, deviation 1.291, standard error 0.913, t(0.975, 6) = 2.447: half width 2.23 against 2.2.
  const auto row = difference_of(late_ring_down("ABBAABBA", 1.0, 2.2), "A", "B", measure("late_s"));
  EXPECT_EQ(row.verdict, Verdict::not_settled);
  EXPECT_GE(row.units_to_settle.value(), 5U);
  // Nothing is to be had where the spread is nil.
  EXPECT_FALSE(units_for_difference(difference_of(late_ring_down("AB", 1.0, 2.2), "A", "B", measure("late_s")), 1.0));
}

TEST(NumberDifference, SmallestPermutationP) {
  // 2 of 6 arrangements of 2 + 2 blocks.
  const auto row = difference_of(late_ring_down("ABBA", 0.1, 5.0), "A", "B", measure("late_s"));
  EXPECT_NEAR(row.permutation_p, 1.0 / 3.0, 1e-12);
  EXPECT_NEAR(row.smallest_permutation_p, 1.0 / 3.0, 1e-12);
}

TEST(NumberDifference, WhatWasLeftOutCountsOnlyWhereItAddsAValue) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3}), exposure_block("B", 2, {4, 5, 6}), exposure_block("C", 3, {4, 5, 7})};
  session.blocks[2].dropped_shots.push_back(exposure_block("C", 3, {50}).shots[0]);
  // Of the third set-up: nothing to do with B against A.
  const auto other = difference_of(session, "A", "B", measure("exposure_db"));
  EXPECT_FALSE(other.with_drops);
  EXPECT_FALSE(other.drops_add_nothing);
  EXPECT_TRUE(difference_of(session, "A", "C", measure("exposure_db")).with_drops);
  // Of B, but without the number.
  session.blocks[1].dropped_shots.push_back(exposure_block("B", 2, {50}).shots[0]);
  session.blocks[1].dropped_shots[0].shot.levels.exposure_db.reset();
  const auto nothing = difference_of(session, "A", "B", measure("exposure_db"));
  EXPECT_FALSE(nothing.with_drops);
  EXPECT_TRUE(nothing.drops_add_nothing);
}

/// Four blocks of one shot, 0.7 x (0 .. 3) plus `shift`.
void add_shifted(Session& session, const std::string& setup, double shift, double side) {
  for (int k = 0; k < 4; ++k) {
    auto block = exposure_block(setup, static_cast<int>(session.blocks.size()) + 1, {0.7 * k + shift});
    block.shots[0].shot.levels.peak_db = 0.7 * k + side;
    block.shots[0].shot.ring_down.late_s = 0.3 + 0.01 * k;
    session.blocks.push_back(block);
  }
}

// Holm (1979): one set-up's main number keeps its p however many side numbers there are; with two set-ups the smaller p is doubled.
// Student by hand: deviation 0.9037, standard error 0.6390, 6 degrees of freedom; 1.6 dB: t 2.504, p 0.046.
TEST(Several, TheMainNumberIsAdjustedOverTheSetUpsOnly) {
  Session session;
  add_shifted(session, "A", 0.0, 0.0);
  add_shifted(session, "B", 1.6, 5.0);
  const auto alone = compare_setups(session, "A", "exposure_db");
  EXPECT_NEAR(row_of(alone, "exposure_db").adjusted_p, 0.046, 0.0005);
  EXPECT_DOUBLE_EQ(row_of(alone, "exposure_db").adjusted_p, row_of(alone, "exposure_db").difference->p);
  EXPECT_TRUE(claims_difference(row_of(alone, "exposure_db").verdict));
  add_shifted(session, "C", 0.1, 0.3);
  const auto both = compare_setups(session, "A", "exposure_db");
  EXPECT_NEAR(row_of(both, "exposure_db").adjusted_p, 2.0 * row_of(both, "exposure_db").difference->p, 1e-12);
  // The third set-up's blocks tell of the spread too: 9 degrees of freedom, p 0.034 and twice that.
  EXPECT_EQ(row_of(both, "exposure_db").difference->df, 9.0);
  EXPECT_EQ(row_of(both, "exposure_db").verdict, Verdict::hint);
  // Side numbers: the peak of both set-ups is two questions; late ring-down is of another family.
  EXPECT_NEAR(row_of(both, "peak_db").adjusted_p, 2.0 * row_of(both, "peak_db").difference->p, 1e-12);
}

}  // namespace
}  // namespace ringfall::compare
