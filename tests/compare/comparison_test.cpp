// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/comparison.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>

#include "base/failure.h"
#include "support/test_folder.h"

namespace ringfall::compare {
namespace {

SessionBlock block(const std::string& setup, int number, const std::vector<double>& exposures) {
  SessionBlock made;
  made.file = setup + std::to_string(number) + ".wav";
  made.setup = setup;
  made.block = number;
  made.sample_rate_hz = 48000.0;
  for (const double exposure : exposures) {
    SessionShot entry;
    entry.shot.levels.exposure_db = exposure;
    entry.shot.levels.floor_db = -80.0;
    entry.shot.impact_lag_s = 0.36;
    made.shots.push_back(entry);
  }
  return made;
}

// Student's sleep data (R datasets::sleep; Student 1908), each value a block: R's t.test with equal variances gives the difference of group 1 and
// 2 as -3.363874 .. 0.203874, 18 degrees of freedom, p 0.07919; here second minus first.
TEST(Comparison, SleepDataGiveStudentsInterval) {
  Session session;
  int number = 0;
  for (const double hours : {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}) session.blocks.push_back(block("a", ++number, {hours}));
  for (const double hours : {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}) session.blocks.push_back(block("b", ++number, {hours}));
  const auto comparison = compare_setups(session, std::nullopt, "exposure_db");
  ASSERT_EQ(comparison.against.size(), 1U);
  const auto& against = comparison.against[0];
  const auto& main = against.numbers.front();
  EXPECT_EQ(main.rests.ground, Ground::repeated_blocks);
  ASSERT_TRUE(main.difference.has_value());
  EXPECT_NEAR(main.difference->difference, 1.58, 1e-9);
  EXPECT_NEAR(main.difference->interval.low, -0.203874, 1e-5);
  EXPECT_NEAR(main.difference->interval.high, 3.363874, 1e-5);
  EXPECT_NEAR(main.difference->p, 0.07919, 1e-5);
  // Exact two-sample permutation: 15048 of 184756.
  EXPECT_NEAR(main.permutation_p, 0.081448, 1e-6);
  EXPECT_EQ(main.verdict, Verdict::not_settled);
  EXPECT_TRUE(main.units_to_settle.has_value());
}

// What people shoot: one recording before, one after. By hand: shots have variance 2.5 in both, a block of 5 is taken to wander with 0.7 of
// their deviation: 2 (0.49 + 1 / 5) 2.5 = 3.45, 4 degrees of freedom, t(0.975, 4) = 2.776445 (table).
TEST(Comparison, OneBlockEachNeverClaims) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3, 4, 5}), block("b", 2, {41, 42, 43, 44, 45})};
  const auto comparison = compare_setups(session, "a", "exposure_db");
  const auto& main = comparison.against[0].numbers.front();
  EXPECT_NEAR(main.difference.value().interval.half_width(), 2.776445 * std::sqrt(3.45), 1e-5);
  EXPECT_EQ(main.rests.from, SpreadFrom::assumed);
  EXPECT_EQ(main.verdict, Verdict::one_block_only);
  EXPECT_TRUE(has_finding(comparison.findings, "one_block"));
  EXPECT_EQ(comparison.answers.at(0).next, NextStep::once_more);
  EXPECT_EQ(comparison.answers[0].loudness.change, Change::leaning_more);
}

// The same, but the logbook holds an earlier evening of another set-up, five blocks of which wander by 0.5: that is what counts then.
TEST(Comparison, OneBlockEachWithAKnownWanderIsADifferenceButNotClear) {
  Session session;
  session.blocks = {block("c", 1, {1, 2, 3, 4, 5}), block("c", 2, {2, 3, 4, 5, 6}), block("c", 3, {1, 2, 3, 4, 5}), block("c", 4, {2, 3, 4, 5, 6}),
                    block("c", 5, {1.5, 2.5, 3.5, 4.5, 5.5}), block("a", 6, {1, 2, 3, 4, 5}), block("b", 7, {41, 42, 43, 44, 45})};
  for (std::size_t k = 5; k < 7; ++k) session.blocks[k].session = 2;
  const auto comparison = compare_setups(session, "a", "exposure_db");
  const auto& against = comparison.against;
  const auto found = std::ranges::find(against, "b", &SetUpComparison::setup);
  ASSERT_NE(found, against.end());
  const auto& main = found->numbers.front();
  EXPECT_EQ(main.rests.from, SpreadFrom::logbook);
  EXPECT_EQ(main.rests.blocks_df, 4.0);
  // Block means 3, 4, 3, 4, 3.5 have variance 0.25: 2.776445 sqrt(2 * 0.25) = 1.96. Shots over 5 are 0.5: t(0.975, 28) sqrt(2 * 0.5) = 2.048407
  // is more, and blocks can't agree better than that.
  EXPECT_TRUE(main.rests.at_floor);
  EXPECT_NEAR(main.difference.value().interval.half_width(), 2.048407, 1e-5);
  EXPECT_EQ(main.verdict, Verdict::differs);
}

TEST(Comparison, IsEmptyWhenItIsStopped) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3}), block("b", 2, {4, 5, 6})};
  int asked = 0;
  const auto comparison = compare_setups(session, "a", "exposure_db", {}, [&asked] { return ++asked < 3; });
  EXPECT_EQ(asked, 3) << "and nothing more is done";
  EXPECT_TRUE(comparison.against.empty());
  EXPECT_TRUE(comparison.setups.empty());
}

TEST(Comparison, BlocksAreTheUnitWhenThereAreTwo) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3}), block("b", 2, {4, 5, 6}), block("b", 3, {5, 6, 7}), block("a", 4, {2, 3, 4})};
  const auto comparison = compare_setups(session, "a", "exposure_db");
  const auto& against = comparison.against[0];
  EXPECT_EQ(against.numbers.front().rests.ground, Ground::repeated_blocks);
  EXPECT_EQ(against.numbers.front().setup.blocks, 2U);
  // Block means 2, 3 against 5, 6: difference 3, pooled SD sqrt(0.5), standard error sqrt(0.5), df 2 (by hand).
  EXPECT_NEAR(against.numbers.front().difference->difference, 3.0, 1e-12);
  EXPECT_NEAR(against.numbers.front().difference->standard_error, std::sqrt(0.5), 1e-12);
  EXPECT_NEAR(against.numbers.front().difference->df, 2.0, 1e-12);
  EXPECT_FALSE(has_finding(comparison.findings, "order_unbalanced"));
}

// One of three side numbers of loudness differs by its own interval only; Holm (1979) over three asks p < 0.05 / 3 of the smallest. The
// impact lag is a check of the chain and shares its error with nothing.
TEST(Comparison, ASideNumberThatHolmDoesNotCarryIsAHint) {
  Session session;
  for (int k = 0; k < 8; ++k) {
    const double step = k / 2;
    auto one = block(k % 2 == 0 ? "a" : "b", k + 1, {step});
    one.shots[0].shot.levels.peak_db = step + (k % 2 == 0 ? 0.0 : 2.3);
    one.shots[0].shot.levels.fast_max_db = step;
    one.shots[0].shot.levels.loudness_sone = step;
    one.shots[0].shot.impact_lag_s = 0.36 + 0.001 * step + (k % 2 == 0 ? 0.0 : 0.0023);
    session.blocks.push_back(one);
  }
  const auto comparison = compare_setups(session, "a", "exposure_db");
  const auto& numbers = comparison.against[0].numbers;
  const auto peak = std::ranges::find(numbers, "peak_db", [](const NumberDifference& row) { return row.number->id; });
  ASSERT_NE(peak, numbers.end());
  // Student t of 2.3 with SD 1.29 each, four blocks of one shot: t = 2.52, df 6, p = 0.045 by itself.
  EXPECT_LT(peak->difference->p, 0.05);
  EXPECT_GT(peak->adjusted_p, 0.05);
  EXPECT_NEAR(peak->adjusted_p, 3.0 * peak->difference->p, 1e-12);
  EXPECT_EQ(peak->verdict, Verdict::hint);
  const auto lag = std::ranges::find(numbers, "impact_lag_s", [](const NumberDifference& row) { return row.number->id; });
  EXPECT_DOUBLE_EQ(lag->adjusted_p, lag->difference->p);
}

TEST(Comparison, DroppedBlocksAreOutAndSaidSo) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3}), block("b", 2, {4, 5, 6}), block("b", 3, {50, 60, 70})};
  session.blocks[2].dropped = "wind";
  const auto comparison = compare_setups(session, "a", "exposure_db");
  EXPECT_NEAR(comparison.against[0].numbers.front().difference->difference, 3.0, 1e-12);
  EXPECT_TRUE(has_finding(comparison.findings, "block_dropped"));
}

TEST(Comparison, MissingNumbersAreCountedOut) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3}), block("b", 2, {4, 5, 6})};
  session.blocks[1].shots[0].shot.levels.exposure_db.reset();
  const auto comparison = compare_setups(session, "a", "exposure_db");
  EXPECT_EQ(comparison.against[0].numbers.front().setup.n, 2U);
  const auto hum = compare_setups(session, "a", "hum");
  EXPECT_FALSE(hum.against[0].numbers.front().difference.has_value());
}

TEST(Comparison, ConfoundersAreNamed) {
  Session session;
  session.blocks = {block("a", 1, {1, 2, 3, 4, 5}), block("a", 2, {1, 2, 3, 4, 5}), block("b", 3, {4, 5, 6, 7, 8}),
                    block("b", 4, {4, 5, 6, 7, 8})};
  for (auto& shot : session.blocks[2].shots) shot.shot.levels.floor_db = -70.0;
  for (auto& shot : session.blocks[3].shots) shot.shot.impact_lag_s = 0.45;
  session.blocks[3].sample_rate_hz = 44100.0;
  session.blocks[1].shots.clear();
  const auto findings = compare_setups(session, "a", "exposure_db").findings;
  for (const char* code : {"floor_changed", "impact_lag_changed", "sample_rate_changed", "no_shot", "order_confounded"}) {
    EXPECT_TRUE(has_finding(findings, code)) << code;
  }
  session.blocks = {block("a", 1, {1, 2, 3, 4, 5}), block("b", 2, {4, 5, 6, 7, 8}), block("b", 3, {4, 5, 6, 7, 8}),
                    block("a", 4, {1, 2, 3, 4, 5})};
  EXPECT_TRUE(compare_setups(session, "a", "exposure_db").findings.empty());
}

TEST(Comparison, RefusesWhatItDoesNotKnow) {
  Session session;
  session.blocks = {block("a", 1, {1, 2}), block("b", 2, {3, 4})};
  EXPECT_THROW(compare_setups(session, "c", "exposure_db"), RequestFailure);
  EXPECT_THROW(compare_setups(session, "a", "volume"), RequestFailure);
  session.blocks.pop_back();
  EXPECT_THROW(compare_setups(session, "a", "exposure_db"), RequestFailure);
}

class PlanFolder : public testing::Test {
 protected:
  void write(const char* name, const char* text) const { std::ofstream(folder_.path(name)) << text; }
  const TestFolder folder_;
};

TEST_F(PlanFolder, ReadsBlocksAndComments) {
  write("setups.csv", "file,setup,block,note,drop\nb.wav,rubber,2,soft,\na.wav,bare,1,,too windy\n");
  write("comments.csv", "file,shot,loud,hum,words\nb.wav,1,5,2,\"dead, short\"\n");
  const auto plan = read_session_plan(folder_.str());
  ASSERT_EQ(plan.blocks.size(), 2U);
  EXPECT_EQ(plan.blocks[0].setup, "bare");
  EXPECT_EQ(plan.blocks[0].dropped, "too windy");
  const auto& said = plan.said.at({"b.wav", 1});
  EXPECT_DOUBLE_EQ(said.hum.value(), 2.0);
  EXPECT_FALSE(said.feel.has_value());
  EXPECT_EQ(said.words, "dead, short");
  EXPECT_EQ(plan.path_of(plan.blocks[1]), folder_.path("b.wav"));
  EXPECT_EQ(read_session_plan(folder_.path("setups.csv")).blocks.size(), 2U);
}

TEST_F(PlanFolder, RefusesBrokenTables) {
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("setups.csv", "file,block\na.wav,1\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("setups.csv", "file,setup,block\na.wav,,1\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("setups.csv", "file,setup,block\na.wav,bare,one\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("setups.csv", "file,setup,block\na.wav,bare,1\n");
  write("comments.csv", "file,shot,hum\na.wav,1,11\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("comments.csv", "file,shot,hum\nx.wav,1,1\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("comments.csv", "file,shot,hum\na.wav,1,1\na.wav,1,2\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
  write("comments.csv", "file,shot,hum\na.wav,1,1\na.wav,2,2\n");
  EXPECT_NO_THROW(read_session_plan(folder_.str()));
  // One recording under two names of set-ups would be compared with itself.
  write("setups.csv", "file,setup,block\na.wav,bare,1\na.wav,rubber,2\n");
  EXPECT_THROW(read_session_plan(folder_.str()), FileFailure);
}

}  // namespace
}  // namespace ringfall::compare
