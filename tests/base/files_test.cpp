// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "base/failure.h"
#include "base/new_file.h"
#include "base/whole_file.h"
#include "support/test_folder.h"

namespace ringfall {
namespace {

namespace fs = std::filesystem;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::size_t files_in(const std::string& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

TEST(NewFile, HasItsNameOnlyWhenItIsWhole) {
  const TestFolder folder;
  {
    NewFile file(folder.path("a"));
    file.write("half");
    EXPECT_FALSE(fs::exists(folder.path("a")));
    EXPECT_NE(file.temporary(), NewFile(folder.path("a")).temporary());
  }
  EXPECT_EQ(files_in(folder.str()), 0U) << "a file that was given up is gone";
  NewFile file(folder.path("a"));
  file.write("whole");
  EXPECT_TRUE(file.place_new());
  EXPECT_EQ(text_of(folder.path("a")), "whole");
  EXPECT_EQ(files_in(folder.str()), 1U);
}

TEST(NewFile, WhatIsThereStaysUnlessItIsToBeReplaced) {
  const TestFolder folder;
  write_whole_file(folder.path("a"), "old");
  {
    NewFile file(folder.path("a"));
    file.write("new");
    EXPECT_FALSE(file.place_new());
  }
  EXPECT_EQ(text_of(folder.path("a")), "old");
  write_whole_file(folder.path("a"), "new");
  EXPECT_EQ(text_of(folder.path("a")), "new");
}

TEST(NewFile, FollowsNoLink) {
  const TestFolder folder;
  write_whole_file(folder.path("precious"), "mine");
  fs::create_symlink(folder.path("precious"), folder.path("link"));
  fs::create_symlink(folder.path("nowhere"), folder.path("dangling"));
  NewFile file(folder.path("dangling"));
  EXPECT_FALSE(file.place_new());
  write_whole_file(folder.path("link"), "new");
  EXPECT_EQ(text_of(folder.path("precious")), "mine");
  EXPECT_EQ(text_of(folder.path("link")), "new");
  EXPECT_FALSE(fs::exists(folder.path("nowhere")));
}

TEST(NewFile, HasTheModeItIsGiven) {
  const TestFolder folder;
  NewFile file(folder.path("a"), 0600);
  EXPECT_TRUE(file.place_new());
  struct stat status {};
  ASSERT_EQ(stat(folder.path("a").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 07777U, 0600U);
}

TEST(NewFile, SaysWhatIsWrong) {
  const TestFolder folder;
  EXPECT_THROW(NewFile(folder.path("no/a")), FileFailure);
  EXPECT_THROW(NewFile(""), FileFailure);
  EXPECT_THROW(write_whole_file("/dev/full", "x"), FileFailure);
  EXPECT_NO_THROW(write_whole_file("/dev/null", "x"));
}

TEST(WholeFile, PipesDevicesAndLinksAreRefused) {
  const TestFolder folder;
  write_whole_file(folder.path("a"), "whole");
  EXPECT_EQ(whole_file(folder.path("a"), 5), "whole");
  EXPECT_THROW(whole_file(folder.path("a"), 4), FileFailure);
  fs::create_symlink(folder.path("a"), folder.path("link"));
  EXPECT_EQ(whole_file(folder.path("link"), 100), "whole");
  EXPECT_THROW(whole_file(folder.path("link"), 100, Links::refused), FileFailure);
  ASSERT_EQ(mkfifo(folder.path("pipe").c_str(), 0600), 0);
  EXPECT_THROW(whole_file(folder.path("pipe"), 100), FileFailure);
  EXPECT_THROW(whole_file("/dev/zero", 100), FileFailure);
  EXPECT_THROW(whole_file(folder.str(), 100), FileFailure);
}

}  // namespace
}  // namespace ringfall
