// SPDX-License-Identifier: GPL-3.0-or-later
// What the Page shows and writes, and what is said of a damaged logbook.
#include <gtest/gtest.h>

#include <filesystem>

#include "desk/figures/document_pane.h"
#include "desk/sharing_hands.h"
#include "logbook/export.h"
#include "report/compare_json.h"

namespace ringfall::desk {
namespace {

namespace fs = std::filesystem;

// Read back by the program's own importer, which refuses what is not whole.
TEST_F(SharingHands, WritesEverythingOut) {
  open_demo();
  hands.press("Page");
  hands.press("Write everything");
  hands.settle();
  ASSERT_TRUE(fs::exists(folder.path("book-export/logbook.csv")));
  EXPECT_TRUE(fs::exists(folder.path("book-export/shots.csv")));
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_EQ(desk.notices.back().link, folder.path("book-export"));
  EXPECT_TRUE(hands.sees("##show export folder")) << "a way to it";
  logbook::import_folder(folder.path("book-export"), folder.path("again.ringfall"));
  EXPECT_EQ(logbook::Logbook(folder.path("again.ringfall")).blocks().size(), logbook::Logbook(book).blocks().size());
  hands.press("Write everything");
  hands.settle();
  EXPECT_TRUE(desk.notices.back().trouble) << "nothing is written over";
}

/// Overwrites a page of the file with shot 9's sound ("Database File Format" 1.6: what is long lies on overflow pages).
void damage_shot_9(const std::string& path) {
  const auto bytes = logbook::Logbook(path).clip(9).bytes;
  std::string file = text_of(path);
  const std::size_t at = file.find(std::string(bytes.begin() + 30000, bytes.begin() + 31000));
  ASSERT_NE(at, std::string::npos);
  const auto page = static_cast<std::ptrdiff_t>(at / 4096 * 4096);
  std::fill(file.begin() + page, file.begin() + page + 4096, '\xA5');
  std::ofstream(path, std::ios::binary) << file;
}

TEST_F(SharingHands, SaysWhatADamagedLogbookLeavesOut) {
  open_demo();
  damage_shot_9(book);
  desk.export_all(folder.path("out"));
  hands.settle();
  ASSERT_FALSE(desk.notices.empty());
  const Notice& notice = desk.notices.back();
  EXPECT_TRUE(notice.trouble) << notice.words;
  EXPECT_NE(notice.words.find("1 shot can't be read and is left out"), std::string::npos) << notice.words;
  EXPECT_NE(notice.words.find("backup"), std::string::npos) << "what to do";
  EXPECT_EQ(notice.link, folder.path("out"));
}

TEST_F(SharingHands, SavesWhatCanBeReadOfADamagedLogbook) {
  put_demo(book);
  std::size_t shots = 0;
  for (const auto& block : logbook::Logbook(book).blocks()) shots += block.shots.size();
  damage_shot_9(book);
  const std::string as_it_was = text_of(book);
  EXPECT_FALSE(hands.sees("Save what can be read"));
  desk.open(book);
  hands.settle();
  EXPECT_EQ(desk.book, nullptr);
  hands.press("Save what can be read");
  hands.settle();
  ASSERT_NE(desk.book, nullptr);
  EXPECT_EQ(desk.book->path, folder.path("book-rescued.ringfall"));
  EXPECT_EQ(desk.book->shots.size(), shots - 1);
  EXPECT_TRUE(desk.damaged.empty());
  ASSERT_FALSE(desk.notices.empty());
  EXPECT_TRUE(std::ranges::any_of(desk.notices, [](const Notice& notice) { return notice.trouble && notice.words.find("; 1 could not") != std::string::npos; }));
  EXPECT_EQ(text_of(book), as_it_was);
}

TEST_F(SharingHands, ShowsWhatThePageWillHoldSlowUnderSanitizer) {
  open_demo();
  hands.press("Page");
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr);
  const auto& document = desk.comparison->document;
  ASSERT_GE(document.sections.size(), 8U);
  for (const auto& section : document.sections) EXPECT_TRUE(hands.sees(section.heading + "##part")) << section.heading;
  const int top = hands.vertices();
  EXPECT_FALSE(hands.sees("tails")) << "out of sight";
  hands.press("Which part of the sound changed##part");
  hands.frames(2);
  EXPECT_TRUE(hands.sees("decay-a")) << "its pictures";
  EXPECT_NE(hands.vertices(), top);
  hands.wheel("document", -30.0F);
  hands.frames(2);
  EXPECT_FALSE(hands.sees("decay-a")) << "the wheel scrolls, over pictures too";
  const auto held = std::ranges::find(document.sections, "listen", &report::Section::id);
  ASSERT_NE(held, document.sections.end());
  EXPECT_EQ(held_words(*held), "3 sounds") << "one a set-up";
}

TEST_F(SharingHands, WritesTheComparisonForSpreadsheetsAndProgramsSlowUnderSanitizer) {
  open_demo();
  hands.press("Page");
  hands.settle();
  hands.press("Write the table");
  hands.press("Write the JSON");
  hands.settle();
  ASSERT_NE(desk.comparison, nullptr);
  const auto& source = desk.comparison->report.source;
  EXPECT_TRUE(desk.comparison->with_sound);
  EXPECT_EQ(text_of(folder.path("book-comparison.csv")), report::compare_csv(source.comparison));
  EXPECT_EQ(text_of(folder.path("book-comparison.json")), report::compare_json(source.comparison, source.session));
  EXPECT_TRUE(text_of(folder.path("book-comparison.csv")).starts_with("baseline,setup,"));
  EXPECT_TRUE(hands.sees("##show table file"));
  EXPECT_FALSE(hands.sees("##show paper file")) << "that was not written";
}

}  // namespace
}  // namespace ringfall::desk
