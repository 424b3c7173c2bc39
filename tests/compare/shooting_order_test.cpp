// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/shooting_order.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "compare/comparison.h"
#include "compare/made_up_session.h"

namespace ringfall::compare {
namespace {

/// Blocks of `shots` shots in the order of the letters, a drift of 1 dB from first to last and nothing else.
Session drifting(const std::string& letters, std::size_t shots) {
  Session session;
  const double last = static_cast<double>(letters.size() * shots - 1);
  double place = 0.0;
  for (std::size_t k = 0; k < letters.size(); ++k) {
    std::vector<double> values;
    for (std::size_t i = 0; i < shots; ++i) values.push_back(place++ / last);
    session.blocks.push_back(exposure_block(std::string(1, letters[k]), static_cast<int>(k) + 1, values));
  }
  return session;
}

// By hand, mean place of B less mean place of A over 23: A12 B12 12/23 = 0.52, A6 B6 A6 B6 6/23 = 0.26, ABBA 0, shot by shot 1/23 = 0.04;
// and that much of a 1 dB drift is the difference of the means.
TEST(ShootingOrder, ShareOfASteadyDrift) {
  struct Case {
    const char* letters;
    std::size_t shots;
    double share;
    OrderJudgement judgement;
  };
  for (const Case& one : {Case{"AB", 12, 12.0 / 23.0, OrderJudgement::confounded}, Case{"AABB", 6, 12.0 / 23.0, OrderJudgement::confounded},
                          Case{"ABAB", 6, 6.0 / 23.0, OrderJudgement::leaning},
                          Case{"ABABAB", 4, 4.0 / 23.0, OrderJudgement::leaning}, Case{"ABBA", 6, 0.0, OrderJudgement::balanced},
                          Case{"ABABABABABABABABABABABAB", 1, 1.0 / 23.0, OrderJudgement::balanced}}) {
    const auto session = drifting(one.letters, one.shots);
    const auto order = shooting_order(session, "A", "B");
    EXPECT_NEAR(order.share, one.share, 1e-12) << one.letters;
    EXPECT_EQ(order.judgement, one.judgement) << one.letters;
    const auto comparison = compare_setups(session, "A", "exposure_db");
    EXPECT_NEAR(comparison.against[0].numbers.front().difference.value().difference, one.share, 1e-9) << one.letters;
  }
}

TEST(ShootingOrder, NamesBlocksAndSessions) {
  Session session = drifting("ABCA", 2);
  session.blocks[3].session = 2;
  EXPECT_EQ(shooting_order(session, "A", "B").blocks, "A B . / A");
}

TEST(ShootingOrder, ConfoundedOrderIsACautionAndAbbaIsNot) {
  EXPECT_TRUE(has_finding(compare_setups(drifting("AABB", 6), "A", "exposure_db").findings, "order_confounded"));
  const auto fine = compare_setups(drifting("ABBA", 6), "A", "exposure_db").findings;
  EXPECT_FALSE(has_finding(fine, "order_confounded"));
  EXPECT_FALSE(has_finding(fine, "order_unbalanced"));
}

// 1 dB from first to last over the session, whatever the set-up: the drift is found, and said.
TEST(ShootingOrder, DriftIsEstimatedAndSaid) {
  const auto session = drifting("ABBA", 6);
  const auto comparison = compare_setups(session, "A", "exposure_db");
  ASSERT_TRUE(comparison.drift);
  EXPECT_NEAR(comparison.drift->over_session, 1.0, 1e-9);
  EXPECT_NEAR(comparison.against[0].drift_in_difference.value(), 0.0, 1e-9);
  const auto said = std::ranges::find(comparison.findings, "drift", &Finding::code);
  ASSERT_NE(said, comparison.findings.end());
  EXPECT_NE(said->sentence.find("seems to have drifted by +1.0"), std::string::npos) << said->sentence;
  EXPECT_EQ(said->sentence.find("of the difference"), std::string::npos) << said->sentence;  // the order cancels it
  const auto leaning = compare_setups(drifting("ABAB", 6), "A", "exposure_db");
  EXPECT_NEAR(leaning.against[0].drift_in_difference.value(), 6.0 / 23.0, 1e-9);
}

// By hand: one shot each has B one place later, one of one step; ABBA none. Weights 1 * 1 / 2 and 12 * 12 / 24 shots: 0.5 / 6.5.
TEST(ShootingOrder, SessionsWeighAsInTheDifference) {
  Session session = drifting("ABBA", 6);
  session.blocks.push_back(exposure_block("A", 5, {0.0}, 2));
  session.blocks.push_back(exposure_block("B", 6, {1.0}, 2));
  const auto order = shooting_order(session, "A", "B");
  EXPECT_NEAR(order.share, 0.5 / 6.5, 1e-12);
  EXPECT_NEAR(order.shots_apart, 0.5 / 6.5, 1e-12);
  EXPECT_EQ(order.judgement, OrderJudgement::balanced);
}

// The set-up before the baseline: 1 dB of drift makes it look 6/23 dB lower.
TEST(ShootingOrder, TheDriftPartHasItsSign) {
  const auto before = compare_setups(drifting("BABA", 6), "A", "exposure_db");
  EXPECT_NEAR(before.against[0].drift_in_difference.value(), -6.0 / 23.0, 1e-9);
  EXPECT_LT(before.against[0].numbers.front().difference.value().difference, 0.0);
}

// 1 dB a shot in both evenings, the second 50 dB lower and the other way round. Places begin anew each evening: 3 steps from first to
// last; slopes are taken within a set-up of one evening: with A of both together the median would be about -20.
TEST(ShootingOrder, DriftIsSoughtEveningByEvening) {
  Session session;
  session.blocks = {exposure_block("A", 1, {0.0, 1.0}, 1), exposure_block("B", 2, {2.0, 3.0}, 1), exposure_block("B", 3, {-50.0, -49.0}, 2),
                    exposure_block("A", 4, {-48.0, -47.0}, 2)};
  const auto drift = drift_of(session, measure_of(*shot::find_number("exposure_db"))).value();
  EXPECT_NEAR(drift.per_shot.slope, 1.0, 1e-12);
  EXPECT_NEAR(drift.over_session, 3.0, 1e-12);
  EXPECT_FALSE(drift.over_session_interval);  // four slopes can't give 95 %
}

TEST(ShootingOrder, WithoutTwoShotsOfOneSetUpThereIsNoDrift) {
  EXPECT_FALSE(drift_of(drifting("AB", 1), measure_of(*shot::find_number("exposure_db"))));
}

// Two evenings 10 dB apart, B about 1 dB over A in both: pooled they would say anything.
TEST(ShootingOrder, SessionsKeepTheirOwnLevel) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1.0, 1.2, 0.8}, 1), exposure_block("B", 2, {2.0, 2.1, 1.9}, 1),
                    exposure_block("B", 3, {12.2, 12.4, 12.0}, 2), exposure_block("A", 4, {11.0, 11.1, 10.9}, 2),
                    exposure_block("B", 5, {30.0}, 3)};
  const auto comparison = compare_setups(session, "A", "exposure_db");
  const auto& main = comparison.against[0].numbers.front();
  // Differences of the block means 1.0 and 1.2, equal weights: 1.1; their variance 0.01 with one degree of freedom. That is too few to know
  // how blocks wander: joined with the assumption, shots' variance 0.025 times (0.49 + 1 / 3), four degrees of freedom.
  EXPECT_NEAR(main.difference.value().difference, 1.1, 1e-9);
  EXPECT_NEAR(main.difference->standard_error, std::sqrt((0.01 + 4.0 * 0.025 * (0.49 + 1.0 / 3.0)) / 5.0), 1e-9);
  EXPECT_EQ(main.difference->df, 5.0);
  EXPECT_TRUE(has_finding(comparison.findings, "session_left_out"));
  // Two strata of one block each: 4 arrangements, of which 2 are as extreme as found.
  EXPECT_NEAR(main.permutation_p, 0.5, 1e-9);
}

TEST(Outlying, AWildShotIsShownAndCounts) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1.0, 1.1, 0.9, 1.05, 0.95, 9.0}), exposure_block("B", 2, {1.0, 1.1, 0.9, 1.05, 0.95, 1.0})};
  const auto comparison = compare_setups(session, "A", "exposure_db");
  ASSERT_EQ(comparison.outlying.size(), 1U);
  EXPECT_EQ(comparison.outlying[0].number, 6);
  EXPECT_NEAR(comparison.outlying[0].median, 1.025, 1e-12);
  EXPECT_TRUE(has_finding(comparison.findings, "outlying_shot"));
  EXPECT_EQ(comparison.against[0].numbers.front().baseline.n, 6U);
  // The median of all pairwise differences hardly sees it; the difference of the means, -1.33 dB, does.
  EXPECT_NEAR(comparison.against[0].numbers.front().robust.value().shift, 0.0, 0.1);
}

TEST(Confounders, FactsThatDifferAreNamed) {
  Session session;
  session.blocks = {exposure_block("A", 1, {1, 2, 3, 4, 5}), exposure_block("B", 2, {1, 2, 3, 4, 5}),
                    exposure_block("B", 3, {1, 2, 3, 4, 5}), exposure_block("A", 4, {1, 2, 3, 4, 5})};
  EXPECT_TRUE(compare_setups(session, "A", "exposure_db").findings.empty());
  session.blocks[1].facts.chain = "phone";
  session.blocks[2].facts.distance_m = 18.0;
  session.blocks[0].facts.distance_m = 20.0;
  session.blocks[0].facts.temperature_c = 22.0;
  session.blocks[3].facts.temperature_c = 8.0;
  session.setup_facts = {{"A", "", std::nullopt, 0.020}, {"B", "", 0.250, 0.021}};
  const auto findings = compare_setups(session, "A", "exposure_db").findings;
  for (const char* code : {"chain_changed", "distance_changed", "temperature_differs", "added_mass_differs", "arrow_differs"}) {
    EXPECT_TRUE(has_finding(findings, code)) << code;
  }
  const auto mass = std::ranges::find(findings, "added_mass_differs", &Finding::code);
  ASSERT_NE(mass, findings.end());
  // 250 g on 2 kg: 20 lg(2.25 / 2) = 1.0 dB; and the fair control is named.
  EXPECT_NE(mass->sentence.find("1.0 dB"), std::string::npos) << mass->sentence;
  EXPECT_NE(mass->sentence.find("dummy of equal mass"), std::string::npos);
}

}  // namespace
}  // namespace ringfall::compare
