// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/csv.h"

#include <gtest/gtest.h>

#include "base/failure.h"

namespace ringfall {
namespace {

// Expected by RFC 4180 section 2, rules 1 to 7.
TEST(Csv, ReadsQuotesCommasAndLineEndsInsideCells) {
  const auto table = parse_csv("file,words\r\na.wav,\"dead, \"\"short\"\"\"\r\nb.wav,\"two\nlines\"\r\n", "t.csv");
  ASSERT_EQ(table.rows.size(), 2U);
  EXPECT_EQ(table.rows[0][1], "dead, \"short\"");
  EXPECT_EQ(table.rows[1][1], "two\nlines");
  EXPECT_EQ(table.lines[1], 3U);
}

TEST(Csv, ReadsSemicolonsDecimalCommasAndAByteOrderMark) {
  const auto table = parse_csv("\xEF\xBB\xBFsetup;hum\nbare;4,5\nrubber;\n", "t.csv");
  EXPECT_DOUBLE_EQ(table.number(0, table.needed_column("hum")).value(), 4.5);
  EXPECT_FALSE(table.number(1, 1).has_value());
}

TEST(Csv, ShortRowsAreFilledAndBlankLinesSkipped) {
  const auto table = parse_csv("a,b,c\n\n1\n", "t.csv");
  ASSERT_EQ(table.rows.size(), 1U);
  EXPECT_EQ(table.rows[0].size(), 3U);
  EXPECT_EQ(table.lines[0], 3U);
}

TEST(Csv, RefusesWhatIsNoTable) {
  EXPECT_THROW(parse_csv("", "t.csv"), FileFailure);
  EXPECT_THROW(parse_csv("a,b\n1,2,3\n", "t.csv"), FileFailure);
  EXPECT_THROW(parse_csv("a\n\"open\n", "t.csv"), FileFailure);
  const auto table = parse_csv("a\ninf\nx\n", "t.csv");
  EXPECT_THROW(table.number(0, 0), FileFailure);
  EXPECT_THROW(table.number(1, 0), FileFailure);
  EXPECT_THROW(table.needed_column("b"), FileFailure);
  EXPECT_THROW(read_csv("no-such-table.csv"), FileFailure);
}

TEST(Csv, NothingIsWrittenInManyWays) {
  const auto table = parse_csv("a\nn/a\nNA\n-\nNaN\n -1\n", "t.csv");
  for (std::size_t row = 0; row < 4; ++row) EXPECT_FALSE(table.number(row, 0)) << row;
  EXPECT_EQ(table.number(4, 0), -1.0);
}

TEST(Csv, WritesWhatItReads) {
  const std::string words = "a \"b\", c\nd";
  const auto table = parse_csv("x\n" + csv_cell(words) + "\n", "t.csv");
  EXPECT_EQ(table.rows[0][0], words);
  EXPECT_EQ(csv_cell("plain"), "plain");
}

// How a spreadsheet is kept from taking a text for a formula: common practice, no source. What comes back is RFC 4180's own field.
TEST(Csv, FormulasAreMadeHarmlessAndComeBack) {
  EXPECT_EQ(csv_cell("=1+1"), "'=1+1");
  EXPECT_EQ(csv_cell("-1.5e-3"), "-1.5e-3") << "a number stays one";
  for (const std::string text : {"=1+1", "+49", "-dull", "@x", "\tx", "\rx", "'=x", "''=", "'", "'tis", "-", "a=b", " =x", "-2", "=\",\"\n"}) {
    const auto table = parse_csv("note,other\n" + csv_cell(text) + ",x\n", "t");
    EXPECT_EQ(table.rows[0][0], text);
  }
}

TEST(Csv, WhatWouldHelpIsSaid) {
  const auto said = [](std::string_view bytes) {
    try {
      parse_csv(bytes, "t").needed_column("file");
    } catch (const FileFailure& failure) {
      return std::string(failure.what());
    }
    return std::string();
  };
  EXPECT_NE(said(std::string_view("\xFF\xFE" "f\0i\0", 6)).find("UTF-16"), std::string::npos);
  EXPECT_NE(said(std::string_view("\xFE\xFF\0f\0i", 6)).find("UTF-16"), std::string::npos);
  EXPECT_NE(said(std::string_view("f\0i\0", 4)).find("UTF-16"), std::string::npos);
  EXPECT_NE(said("File,setup\na,b\n").find("small letters"), std::string::npos);
}

TEST(Csv, NamesAreReadWithoutTheBlanksAroundThem) {
  const auto table = parse_csv("setup\n bare \n", "t");
  EXPECT_EQ(table.text(0, 0), "bare");
  EXPECT_EQ(table.rows[0][0], " bare ") << "the cell itself is as it was written";
}

}  // namespace
}  // namespace ringfall
