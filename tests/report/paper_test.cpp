// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/paper.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "plot/text_width.h"
#include "report/example_report.h"
#include "report/paper_flow.h"
#include "report/paper_table.h"
#include "report/session_document.h"

namespace ringfall::report {
namespace {

std::vector<plot::Text> texts_of(const plot::Picture& sheet) {
  std::vector<plot::Text> texts;
  for (const auto& mark : sheet.marks) {
    if (const auto* text = std::get_if<plot::Text>(&mark)) texts.push_back(*text);
  }
  return texts;
}

/// All words in painting order, each line followed by a space.
std::string words_of(const std::vector<plot::Picture>& sheets) {
  std::string words;
  for (const auto& sheet : sheets) {
    for (const auto& text : texts_of(sheet)) words += text.words + " ";
  }
  return words;
}

std::size_t count_of(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
  return count;
}

void expect_on_the_sheet(const std::vector<plot::Picture>& sheets) {
  for (const auto& sheet : sheets) {
    for (const auto& text : texts_of(sheet)) {
      const double width = plot::text_width(text.words, text.size_pt);
      const double left = text.anchor == plot::Anchor::end ? text.at.x - width
                          : text.anchor == plot::Anchor::middle ? text.at.x - width / 2.0
                                                                : text.at.x;
      EXPECT_GE(left, PaperFlow::kMargin_pt - 0.5) << text.words;
      EXPECT_LE(left + width, PaperFlow::kSheetWidth_pt - PaperFlow::kMargin_pt + 0.5) << text.words;
      EXPECT_GE(text.at.y, PaperFlow::kMargin_pt) << text.words;
      EXPECT_LE(text.at.y, PaperFlow::kSheetHeight_pt - PaperFlow::kMargin_pt + 0.5) << text.words;
    }
  }
}

Document of_one(Piece piece) {
  Document document;
  document.title = "Made up";
  document.sections.push_back({"one", "One", {std::move(piece)}});
  return document;
}

TEST(Paper, SaysWhatThePageSays) {
  const auto document = session_document(session_report(source_of(example_session())));
  const auto sheets = paper_sheets(document);
  ASSERT_GE(sheets.size(), 2U);
  // ISO 216: A4 is 210 x 297 mm.
  EXPECT_NEAR(sheets.front().width_pt, 210.0 / 25.4 * 72.0, 0.01);
  EXPECT_NEAR(sheets.front().height_pt, 297.0 / 25.4 * 72.0, 0.01);
  const std::string words = words_of(sheets);
  for (const auto& section : document.sections) {
    // A picture to look things up in is on the page alone.
    EXPECT_EQ(words.find(section.heading) != std::string::npos, section.id != "shots") << section.heading;
  }
  EXPECT_NE(words.find("The page (.html) of this report has more"), std::string::npos);
  EXPECT_EQ(words.find("Shot by shot: what was said"), std::string::npos) << "a table to look things up in is on the page alone";
  EXPECT_NE(words.find("Never loose the string without an arrow"), std::string::npos);
  expect_on_the_sheet(sheets);
}

// 200 rows of two lines do not fit on one sheet: none may be cut or lost, and each sheet has the head again.
TEST(Paper, ALongTableGoesOnWithItsHead) {
  Table table{"Many", {{"Name", false}, {"Value", true}}, {}, Faces::all};
  for (int k = 0; k < 200; ++k) table.rows.push_back({"row-" + std::to_string(k) + ".", std::to_string(k)});
  const auto sheets = paper_sheets(of_one(table));
  ASSERT_GE(sheets.size(), 3U);
  const std::string words = words_of(sheets);
  for (int k = 0; k < 200; ++k) EXPECT_EQ(count_of(words, "row-" + std::to_string(k) + "."), 1U) << k;
  EXPECT_EQ(count_of(words, "Value "), sheets.size());
  expect_on_the_sheet(sheets);
}

TEST(Paper, NarrowColumnsWrapAndNumbersDoNot) {
  const std::string sentence = "a sentence that goes on for so long that one line of a sheet can't hold it, and then some more "
                               "words follow so that it surely needs another";
  const Table table{"", {{"Name", false}, {"Long words", false}, {"Number of a kind", true}}, {{"x", sentence, "-12.5 to 3.25"}}, Faces::all};
  const auto laid = paper_table(table, 300.0, 8.0);
  EXPECT_GT(laid.rows[0][1].size(), 1U);
  ASSERT_EQ(laid.rows[0][2].size(), 1U);
  EXPECT_EQ(laid.rows[0][2][0], "-12.5 to 3.25");
  std::string again;
  for (const auto& line : laid.rows[0][1]) again += (again.empty() ? "" : " ") + line;
  EXPECT_EQ(again, sentence);
  EXPECT_NEAR(laid.left_pt[2] + laid.width_pt[2], 300.0, 0.5);
}

// Even a hopeless table stays on its sheet: words are shortened.
TEST(Paper, TooManyColumnsShrink) {
  Table table{"Wide", {}, {{}}};
  for (int k = 0; k < 40; ++k) {
    table.columns.push_back({"unbreakable" + std::to_string(k), k % 2 == 0});
    table.rows[0].push_back("123456.789");
  }
  expect_on_the_sheet(paper_sheets(of_one(table)));
}

TEST(Paper, SoundsAreLeftOutWithTheirHeading) {
  Document document = of_one(Words{"kept", WordsStyle::plain});
  document.sections.push_back({"two", "Listen", {Words{"with headphones", WordsStyle::plain}, Sounds{{{"a", "audio/flac", "x"}}}}});
  const std::string words = words_of(paper_sheets(document));
  EXPECT_NE(words.find("kept"), std::string::npos);
  EXPECT_EQ(words.find("Listen"), std::string::npos);
  EXPECT_EQ(words.find("headphones"), std::string::npos);
}

TEST(Paper, AFigureStaysWholeAndNumbersItsSheets) {
  plot::Figure figure;
  figure.title = "Nothing in it";
  Drawings drawings;
  for (int k = 0; k < 9; ++k) drawings.figures.push_back({"f" + std::to_string(k), figure, "", "caption " + std::to_string(k) + "."});
  const auto sheets = paper_sheets(of_one(drawings));
  ASSERT_GE(sheets.size(), 2U);
  const std::string words = words_of(sheets);
  for (int k = 0; k < 9; ++k) EXPECT_EQ(count_of(words, "caption " + std::to_string(k) + "."), 1U);
  EXPECT_EQ(count_of(words, "Nothing in it"), 9U);
  const auto last = texts_of(sheets.back());
  EXPECT_EQ(last.back().words, std::to_string(sheets.size()) + " / " + std::to_string(sheets.size()));
  expect_on_the_sheet(sheets);
}

}  // namespace
}  // namespace ringfall::report
