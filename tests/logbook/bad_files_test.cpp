// SPDX-License-Identifier: GPL-3.0-or-later
// Files that are no logbook, damaged, may not be written, or do not fit on the disk.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <fstream>
#include <functional>

#include "base/failure.h"
#include "logbook/logbook.h"
#include "logbook/made_up.h"

namespace ringfall::logbook {
namespace {

/// The failure's sentence; empty: there was none.
std::string refusal(const std::function<void()>& act) {
  try {
    act();
  } catch (const LogbookFailure& failure) {
    return failure.what();
  }
  return "";
}

void expect_says(const std::string& sentence, const std::string& file, const std::string& part) {
  EXPECT_NE(sentence.find(file), std::string::npos) << "names the file: " << sentence;
  EXPECT_NE(sentence.find(part), std::string::npos) << sentence;
}

TEST(BadFiles, ForeignAndMissing) {
  const TestFolder folder;
  const std::string foreign = folder.path("foreign");
  std::ofstream{foreign}.close();
  Database(foreign, Database::Access::just_made).run("CREATE TABLE things (id INTEGER)");
  expect_says(refusal([&] { Logbook book(foreign); }), foreign, "another program's file");
  EXPECT_EQ(Database(foreign, Database::Access::existing).integer("SELECT count(*) FROM sqlite_schema"), 1) << "left alone";
  const std::string text = folder.path("text");
  std::ofstream(text) << "file,setup,block\n";
  EXPECT_FALSE(is_sqlite_file(text));
  expect_says(refusal([&] { Logbook book(text); }), text, "this is no logbook");
  const std::string empty = folder.path("empty");
  std::ofstream{empty}.close();
  expect_says(refusal([&] { Logbook book(empty); }), empty, "this is no logbook");
  const std::string missing = folder.path("missing");
  expect_says(refusal([&] { Logbook book(missing); }), missing, "there is no such logbook");
  EXPECT_FALSE(std::filesystem::exists(missing));
  const std::string nowhere = folder.path("no/such/folder");
  expect_says(refusal([&] { Logbook::start(nowhere, made_up_conditions()); }), nowhere, "make it first");
}

TEST(BadFiles, AStartThatFailsStandsInNobodysWay) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  Conditions wrong = made_up_conditions();
  wrong.temperature_c = 600.0;
  expect_says(refusal([&] { Logbook::start(path, wrong); }), path, "refuses this entry");
  EXPECT_TRUE(std::filesystem::is_empty(folder.str())) << "nothing is left of it";
  EXPECT_EQ(refusal([&] { Logbook::start(path, made_up_conditions()); }), "");
  // What another program made is not taken away.
  const std::string mine = folder.path("mine");
  std::ofstream(mine) << "words of mine";
  expect_says(refusal([&] { Logbook::start(mine, made_up_conditions()); }), mine, "this file exists");
  expect_says(refusal([&] { Logbook(path).copy_to(mine); }), mine, "not written over");
  EXPECT_FALSE(Logbook(path).database().copy_to(mine));
  EXPECT_EQ(std::filesystem::file_size(mine), 13U);
}

TEST(BadFiles, DamagedPagesAreSeen) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  {
    Logbook book = made_up_logbook(path);
    for (int k = 1; k <= 20; ++k) book.add_clip(1, made_up_clip(k, 100));
  }
  // All pages but the first, which holds the header and the schema (page size 4096).
  const auto size = static_cast<std::streamoff>(std::filesystem::file_size(path));
  {
    std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(3 * 4096);
    for (std::streamoff k = 3 * 4096; k < size; ++k) file.put('\xA5');
  }
  expect_says(refusal([&] { Logbook(path).check_whole(); }), path, "damaged");
  expect_says(refusal([&] { Logbook(path).blocks(); }), path, "damaged");
}

TEST(BadFiles, EntriesThatCannotBeAreSeen) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  {
    Logbook book = made_up_logbook(path);
    book.add_clip(1, made_up_clip(1));
    book.check_whole();
  }
  // Readable pages whose content breaks a rule of the schema.
  Database(path, Database::Access::existing).run("PRAGMA ignore_check_constraints = ON; UPDATE shot SET onset_fraction = 2.0");
  expect_says(refusal([&] { Logbook(path).check_whole(); }), path, "damaged");
}

TEST(BadFiles, FullDiskLosesNothing) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path).add_clip(1, made_up_clip(1));
  {
    Database database(path, Database::Access::existing);
    // SQLite's own limit answers as a full disk does.
    database.run("PRAGMA max_page_count = " + std::to_string(database.integer("PRAGMA page_count") + 4));
    Logbook book(std::move(database));
    expect_says(refusal([&] { book.add_clip(1, made_up_clip(2, 100000)); }), path, "the disk is full");
    EXPECT_EQ(book.add_clip(1, made_up_clip(3, 100)), 2) << "a smaller one still fits";
  }
  const Logbook book(path);
  book.check_whole();
  ASSERT_EQ(book.blocks()[0].shots.size(), 2U);
  EXPECT_EQ(book.clip(1).bytes, made_up_clip(1).bytes);
}

TEST(BadFiles, ReadOnlyFileIsReadAndNotWritten) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path).add_clip(1, made_up_clip(1));
  chmod(path.c_str(), 0444);
  chmod(std::filesystem::path(path).parent_path().c_str(), 0777);
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    // Permissions do not bind root.
    if (geteuid() == 0 && setuid(65534) != 0) _exit(3);
    int result = 2;
    try {
      Logbook book(path);
      if (book.clip(1).bytes != made_up_clip(1).bytes) _exit(4);
      const std::string said = refusal([&] { book.drop_shot(1, "x"); });
      result = said.find("may not be written") != std::string::npos ? 0 : 5;
    } catch (const std::exception&) {
      result = 6;
    }
    _exit(result);
  }
  int status = 0;
  waitpid(child, &status, 0);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

}  // namespace
}  // namespace ringfall::logbook
