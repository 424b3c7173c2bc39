// SPDX-License-Identifier: GPL-3.0-or-later
#include "compare/number_table.h"

#include <gtest/gtest.h>

#include <fstream>

#include "base/failure.h"
#include "compare/comparison.h"
#include "support/test_folder.h"

namespace ringfall::compare {
namespace {

class NumberTable : public testing::Test {
 protected:
  Session read(const std::string& text) const {
    std::ofstream(folder_.path("t.csv")) << text;
    return read_number_table(folder_.path("t.csv"));
  }
  const TestFolder folder_;
};

TEST_F(NumberTable, ReadsBlocksColumnsRatingsAndDrops) {
  const auto session = read("setup,block,shot,vibration [m/s2],level (dB),said feel,words,drop\n"
                            "rubber,2,1,3.25,80,8,dead,\nbare,1,1,5.5,84,3,kicks,\nbare,1,2,5.0,,,,pluck\n");
  ASSERT_EQ(session.columns.size(), 2U);
  EXPECT_EQ(session.columns[0].name, "vibration");
  EXPECT_EQ(session.columns[0].unit, "m/s2");
  EXPECT_EQ(session.columns[0].decimals, 3);
  EXPECT_EQ(session.columns[0].noticeable, 0.0);
  EXPECT_EQ(session.columns[1].noticeable, 1.0);  // 1 dB, common practice
  ASSERT_EQ(session.blocks.size(), 2U);
  EXPECT_EQ(session.blocks[0].setup, "bare");
  ASSERT_EQ(session.blocks[0].shots.size(), 1U);
  EXPECT_EQ(session.blocks[0].shots[0].values[0], 5.5);
  EXPECT_EQ(session.blocks[0].shots[0].said.feel, 3.0);
  ASSERT_EQ(session.blocks[0].dropped_shots.size(), 1U);
  EXPECT_EQ(session.blocks[0].dropped_shots[0].dropped, "pluck");
  EXPECT_FALSE(session.blocks[0].dropped_shots[0].values[1]);
  EXPECT_EQ(session.blocks[1].shots[0].said.words, "dead");
}

TEST_F(NumberTable, WithoutBlocksARunOfOneSetUpIsABlock) {
  const auto session = read("setup,x\na,1\na,2\nb,3\na,4\n");
  ASSERT_EQ(session.blocks.size(), 3U);
  EXPECT_EQ(session.blocks[0].shots.size(), 2U);
  EXPECT_EQ(session.blocks[2].setup, "a");
}

// Student's sleep data (R datasets::sleep), each value a block: Student's interval -0.203874 .. 3.363874 (R: equal variances); with semicolons and decimal commas as well.
TEST_F(NumberTable, SleepDataComeOutAsInR) {
  const char* comma = "setup,block,hours\na,1,0.7\na,2,-1.6\na,3,-0.2\na,4,-1.2\na,5,-0.1\na,6,3.4\na,7,3.7\na,8,0.8\na,9,0\na,10,2\n"
                      "b,11,1.9\nb,12,0.8\nb,13,1.1\nb,14,0.1\nb,15,-0.1\nb,16,4.4\nb,17,5.5\nb,18,1.6\nb,19,4.6\nb,20,3.4\n";
  std::string semicolon(comma);
  for (char& c : semicolon) c = c == ',' ? ';' : c == '.' ? ',' : c;
  for (const std::string& text : {std::string(comma), semicolon}) {
    const auto comparison = compare_setups(read(text), "a", "hours");
    const auto& main = comparison.against[0].numbers.front();
    EXPECT_EQ(main.number->id, "hours");
    EXPECT_NEAR(main.difference.value().interval.low, -0.203874, 1e-5);
    EXPECT_NEAR(main.difference->interval.high, 3.363874, 1e-5);
  }
}

TEST_F(NumberTable, WithAndWithoutWhatWasLeftOut) {
  const auto comparison = compare_setups(read("setup,x,drop\na,1,\na,2,\na,3,\nb,4,\nb,5,\nb,6,\nb,50,arm hit\n"), "a", "x");
  const auto& main = comparison.against[0].numbers.front();
  // By hand: means 2 and 5; with the dropped one 2 and 16.25.
  EXPECT_NEAR(main.difference.value().difference, 3.0, 1e-12);
  EXPECT_NEAR(main.with_drops.value().difference, 14.25, 1e-12);
}

TEST_F(NumberTable, MissingValuesAndColumnsOfWords) {
  const auto session = read("setup,x,who\n a ,1.5,Ann\na,n/a,Ben\nb,-,\nb,NA,Ann\n");
  ASSERT_EQ(session.columns.size(), 1U);
  ASSERT_EQ(session.blocks.size(), 2U) << "blanks round a set-up's name are not its name";
  EXPECT_EQ(session.blocks[0].shots[0].values[0], 1.5);
  EXPECT_FALSE(session.blocks[0].shots[1].values[0] || session.blocks[1].shots[0].values[0] || session.blocks[1].shots[1].values[0]);
  EXPECT_TRUE(has_finding(session.blocks[0].findings, "column_without_numbers"));
  const auto tabs = read("setup\tx\na\t1,5\nb\t-2\n");
  EXPECT_EQ(tabs.blocks[0].shots[0].values[0], 1.5);
  EXPECT_EQ(tabs.blocks[1].shots[0].values[0], -2.0);
}

// Is 1.234 one and a bit, or over a thousand? The table has to say.
TEST_F(NumberTable, TwoDecimalMarksAreRefused) {
  try {
    read("setup;x;y\na;412,5;1\nb;3;1.234\n");
    FAIL();
  } catch (const FileFailure& failure) {
    EXPECT_NE(std::string(failure.what()).find("a point in line 3 and a comma in line 2"), std::string::npos) << failure.what();
  }
}

TEST_F(NumberTable, OnlyDecibelsAreNoticedByTheDecibel) {
  const auto session = read("setup,fall [dB/s],level [dB(A)],peak (dB(C))\na,1,2,4\nb,2,3,5\n");
  EXPECT_EQ(session.columns[0].noticeable, 0.0);
  EXPECT_EQ(session.columns[1].noticeable, 1.0);
  EXPECT_EQ(session.columns[1].unit, "dB(A)");
  EXPECT_EQ(session.columns[2].unit, "dB(C)");
  EXPECT_EQ(session.columns[2].name, "peak");
}

TEST_F(NumberTable, AFolderIsNoTable) {
  try {
    read_number_table(folder_.path(""));
    FAIL();
  } catch (const FileFailure& failure) {
    EXPECT_NE(std::string(failure.what()).find("this is a folder"), std::string::npos) << failure.what();
  }
}

TEST_F(NumberTable, RefusesWhatItCannotCompare) {
  EXPECT_THROW(read("setup,block\na,1\n"), FileFailure);            // nothing to compare
  EXPECT_THROW(read("x,block\n1,1\n"), FileFailure);                // no set-up
  EXPECT_THROW(read("setup,x\na,loud\n"), FileFailure);             // no number
  EXPECT_THROW(read("setup,x,x\na,1,2\n"), FileFailure);            // a name twice
  EXPECT_THROW(read("setup,block,x\na,1,2\nb,1,2\n"), FileFailure); // two set-ups in one block
  EXPECT_THROW(read("setup,x,said hum\na,1,11\n"), FileFailure);    // a rating outside 0 .. 10
  EXPECT_THROW(read("setup,x\n"), FileFailure);                     // no row
}

}  // namespace
}  // namespace ringfall::compare
