// SPDX-License-Identifier: GPL-3.0-or-later
// Names that can't be, set-ups taken away, sounds kept once, dates of sessions: own rules, docs/logbook.md.
#include <gtest/gtest.h>

#include <filesystem>
#include <functional>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

template <typename Failure>
std::string complaint_of(const std::function<void()>& act) {
  try {
    act();
  } catch (const Failure& failure) {
    return failure.what();
  }
  return "";
}

TEST(Names, AreThereAndStandOnOneLine) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  for (const char* name : {"", "   ", "two\nlines", "tab\tin", "bell\a", "\x7f"}) {
    EXPECT_THROW(book.add_bow({name}), RequestFailure) << name;
    EXPECT_THROW(book.add_setup({name, "", false, std::nullopt}), RequestFailure) << name;
    EXPECT_THROW(book.change_setup("bare", {name, "", true, std::nullopt}), RequestFailure) << name;
    Conditions conditions = made_up_conditions();
    conditions.bow = name;
    EXPECT_THROW(Logbook::start(folder.path("b"), conditions), RequestFailure) << name;
    EXPECT_FALSE(std::filesystem::exists(folder.path("b"))) << "nothing is begun";
  }
  book.add_bow({"a bow, with \"marks\""});
  EXPECT_NE(complaint_of<RequestFailure>([&] { book.add_bow({"a bow, with \"marks\""}); }).find("is there already"), std::string::npos);
  EXPECT_NE(complaint_of<RequestFailure>([&] { book.add_setup({"bare", "", false, std::nullopt}); }).find("'bare' is there already"),
            std::string::npos);
  book.add_setup({"damper", "", false, std::nullopt});
  EXPECT_THROW(book.change_setup("damper", {"bare", "", false, std::nullopt}), RequestFailure);
  // A name that no file system takes (255 bytes a part, POSIX NAME_MAX of Linux).
  const std::string too_long = folder.path(std::string(300, 'x'));
  EXPECT_NE(complaint_of<LogbookFailure>([&] { Logbook book2(too_long); }).find("no logbook can have this name"), std::string::npos);
  EXPECT_THROW(Logbook::start(too_long, made_up_conditions()), LogbookFailure);
  EXPECT_THROW(book.copy_to(too_long), LogbookFailure);
}

TEST(Names, WordsOfTheDatabaseReachNobody) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  // SQLite's own words for these: "CHECK constraint failed: ...", "UNIQUE constraint failed: ...".
  const std::string check = complaint_of<LogbookFailure>([&] { book.add_setup({"heavy", "", false, 11.0}); });
  EXPECT_NE(check.find("a value in it can't be"), std::string::npos) << check;
  book.add_clip(1, made_up_clip(1));
  const std::string unique = complaint_of<LogbookFailure>([&] { book.add_clip(1, made_up_clip(1)); });
  EXPECT_NE(unique.find("is there already"), std::string::npos) << unique;
  for (const auto& sentence : {check, unique}) EXPECT_EQ(sentence.find("constraint"), std::string::npos) << sentence;
}

TEST(SetUps, OneWithoutBlocksCanBeTakenAway) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));  // one block of 'bare'
  book.add_setup({"wrong", "", false, std::nullopt});
  EXPECT_NE(complaint_of<RequestFailure>([&] { book.remove_setup("", "bare"); }).find("block 1 was shot with 'bare'"), std::string::npos);
  book.change_block(1, "wrong", "");
  EXPECT_NE(complaint_of<RequestFailure>([&] { book.remove_setup("", "bare"); }).find("is the baseline"), std::string::npos);
  book.change_block(1, "bare", "");
  book.remove_setup("", "wrong");
  ASSERT_EQ(book.setups().size(), 1U);
  EXPECT_EQ(book.setups()[0].name, "bare");
  EXPECT_THROW(book.remove_setup("", "wrong"), RequestFailure);
  EXPECT_THROW(book.remove_setup("no such bow", "bare"), RequestFailure);
  book.check_whole();
}

TEST(Sounds, CountOnce) {
  const TestFolder folder;
  Logbook book = made_up_logbook(folder.path("a"));
  const CodedClip clip = made_up_clip(1);
  EXPECT_FALSE(book.place_of(clip));
  const auto shot = book.add_clip(1, clip);
  const auto place = book.place_of(clip);
  ASSERT_TRUE(place);
  EXPECT_EQ(place->shot, shot);
  EXPECT_EQ(place->block, 1);
  EXPECT_EQ(place->setup, "bare");
  EXPECT_FALSE(book.place_of(made_up_clip(1, 2999))) << "another sound";
  book.drop_block(1, "wind");
  EXPECT_FALSE(book.place_of(clip)) << "a dropped block does not count";
  EXPECT_EQ(book.add_block({"bare", "again.wav", 48000.0, "", "", {}}), 2);
  book.add_clip(2, clip);
  EXPECT_NE(complaint_of<RequestFailure>([&] { book.drop_block(1, ""); }).find("block 2 holds the sound of block 1 too"), std::string::npos);
  EXPECT_EQ(book.blocks()[0].dropped, "wind");
  book.drop_block(2, "the same again");
  book.drop_block(1, "");
  EXPECT_EQ(book.blocks()[0].dropped, "");
}

TEST(Sessions, CanBeDated) {
  const TestFolder folder;
  Conditions conditions = made_up_conditions();
  conditions.started_at = "2026-10-03T18:30:00Z";
  Logbook book = Logbook::start(folder.path("a"), conditions);
  EXPECT_EQ(book.conditions().started_at, "2026-10-03T18:30:00Z");
  conditions.started_at.clear();
  book.start_session(conditions);
  const std::string now = book.conditions().started_at;
  EXPECT_EQ(now.size(), conditions.started_at.size() + 20) << "ISO 8601 to the second: " << now;
  Conditions changed = book.conditions();
  changed.started_at = "2026-09-01T12:00:00Z";
  book.change_session(changed);
  EXPECT_EQ(book.conditions().started_at, "2026-09-01T12:00:00Z");
  changed.started_at.clear();
  book.change_session(changed);
  EXPECT_EQ(book.conditions().started_at, "2026-09-01T12:00:00Z") << "not said: as it was";
}

}  // namespace
}  // namespace ringfall::logbook
