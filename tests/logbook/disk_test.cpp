// SPDX-License-Identifier: GPL-3.0-or-later
// Disks that are full, files that may not grow, folders that may not be written: what was kept stays, and a sentence says what
// to do. The limits are the system's own, so each case runs in a child process.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>

#include "base/failure.h"
#include "logbook/export.h"
#include "logbook/made_up.h"
#include "support/damaged_page.h"

namespace ringfall::logbook {
namespace {

namespace fs = std::filesystem;

constexpr int kAsExpected = 0;
constexpr int kNoFailure = 10;
constexpr int kOtherSentence = 11;
constexpr int kNotMounted = 12;
constexpr int kLost = 13;

/// Runs it in a child process and gives its exit status.
int in_child(const std::function<int()>& act) {
  const pid_t child = fork();
  EXPECT_GE(child, 0);
  if (child == 0) {
    int status = kLost;
    try {
      status = act();
    } catch (const std::exception& failure) {
      fprintf(stderr, "%s\n", failure.what());
    }
    _exit(status);
  }
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// Adds clips until one is refused; kAsExpected when the refusal says `part` and all kept clips are still there.
int fill_until_refused(const std::string& path, const std::string& part) {
  int kept = 0;
  {
    Logbook book(path);
    try {
      for (int k = 2; k < 2000; ++k) {
        book.add_clip(1, made_up_clip(k, 50000));
        kept = k;
      }
      return kNoFailure;
    } catch (const LogbookFailure& failure) {
      if (std::string(failure.what()).find(part) == std::string::npos) {
        fprintf(stderr, "%s\n", failure.what());
        return kOtherSentence;
      }
    }
  }
  const Logbook book(path);
  book.check_whole();
  const auto shots = book.blocks()[0].shots;
  if (static_cast<int>(shots.size()) != std::max(kept, 1)) return kLost;
  for (const auto& shot : shots) {
    if (book.clip(shot.id).bytes != made_up_clip(shot.shot.number, shot.shot.number == 1 ? 3000 : 50000).bytes) return kLost;
  }
  return kAsExpected;
}

TEST(Disk, FullFileSystemLosesNothing) {
  if (geteuid() != 0) GTEST_SKIP() << "only root can mount a small file system; FileMayNotGrow covers the rest";
  const TestFolder folder;
  const std::string small = folder.path("small");
  fs::create_directory(small);
  if (mount("tmpfs", small.c_str(), "tmpfs", 0, "size=2m") != 0) GTEST_SKIP() << "no file system can be mounted here";
  made_up_logbook(small + "/a").add_clip(1, made_up_clip(1));
  EXPECT_EQ(in_child([&] { return fill_until_refused(small + "/a", "the disk is full"); }), kAsExpected);
  // Copies and exports that do not fit leave nothing that looks whole.
  EXPECT_THROW(Logbook(small + "/a").copy_to(small + "/copy"), LogbookFailure);
  EXPECT_FALSE(fs::exists(small + "/copy"));
  EXPECT_THROW(export_folder(Logbook(small + "/a"), small + "/out"), FileFailure);
  EXPECT_FALSE(fs::exists(small + "/out/logbook.csv"));
  EXPECT_THROW(import_folder(small + "/out", small + "/b"), FileFailure);
  Logbook(small + "/a").check_whole();
  EXPECT_EQ(umount(small.c_str()), 0);
}

TEST(Disk, FileMayNotGrow) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path).add_clip(1, made_up_clip(1));
  EXPECT_EQ(in_child([&] {
    signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{1U << 20U, 1U << 20U};
    if (setrlimit(RLIMIT_FSIZE, &limit) != 0) return kNotMounted;
    return fill_until_refused(path, path);
  }), kAsExpected);
  const Logbook book(path);
  book.check_whole();
  EXPECT_EQ(book.clip(1).bytes, made_up_clip(1).bytes);
}

// A folder that may not be written, a file that may not be either: read with SQLite's "immutable" (its documentation, "Uniform
// Resource Identifiers" 3.3), since no log can be made beside it.
TEST(Disk, SealedLogbookIsReadAndNotWritten) {
  const TestFolder folder;
  const std::string place = folder.path("place");
  fs::create_directory(place);
  made_up_logbook(place + "/a # 1%").add_clip(1, made_up_clip(1));
  chmod(folder.str().c_str(), 0755);
  chmod((place + "/a # 1%").c_str(), 0444);
  chmod(place.c_str(), 0555);
  EXPECT_EQ(in_child([&] {
    // Permissions do not bind root.
    if (geteuid() == 0 && setuid(65534) != 0) return kNotMounted;
    Logbook book(place + "/a # 1%");
    book.check_whole();
    if (book.blocks().size() != 1 || book.clip(1).bytes != made_up_clip(1).bytes || book.sessions().empty()) return kLost;
    try {
      book.drop_shot(1, "x");
      return kNoFailure;
    } catch (const LogbookFailure& failure) {
      return std::string(failure.what()).find("may not be written") != std::string::npos ? kAsExpected : kOtherSentence;
    }
  }), kAsExpected);
  chmod((place + "/a # 1%").c_str(), 0000);
  EXPECT_EQ(in_child([&] {
    if (geteuid() == 0 && setuid(65534) != 0) return kNotMounted;
    try {
      const Logbook book(place + "/a # 1%");
      return kNoFailure;
    } catch (const LogbookFailure& failure) {
      return std::string(failure.what()).find("may not read this file") != std::string::npos ? kAsExpected : kOtherSentence;
    }
  }), kAsExpected);
  chmod(place.c_str(), 0755);
}

TEST(Disk, FolderMayNotBeWritten) {
  const TestFolder folder;
  const std::string place = folder.path("place");
  fs::create_directory(place);
  made_up_logbook(place + "/a").add_clip(1, made_up_clip(1));
  chmod(folder.str().c_str(), 0755);
  chmod((place + "/a").c_str(), 0666);  // the file itself may be
  chmod(place.c_str(), 0555);
  EXPECT_EQ(in_child([&] {
    // Permissions do not bind root.
    if (geteuid() == 0 && setuid(65534) != 0) return kNotMounted;
    Logbook book(place + "/a");
    if (book.blocks().size() != 1) return kLost;
    try {
      book.drop_shot(1, "x");
      return kNoFailure;
    } catch (const LogbookFailure& failure) {
      const std::string said = failure.what();
      const bool clear = said.find(place) != std::string::npos && (said.find("may you write to its folder") != std::string::npos ||
                                                                   said.find("may not be written") != std::string::npos);
      if (!clear) fprintf(stderr, "%s\n", said.c_str());
      return clear ? kAsExpected : kOtherSentence;
    }
  }), kAsExpected);
  chmod(place.c_str(), 0755);
  EXPECT_EQ(Logbook(place + "/a").clip(1).bytes, made_up_clip(1).bytes);
}

TEST(Disk, OnePageWrongIsSeenAndTheRestCanBeExported) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  {
    Logbook book = made_up_logbook(path);
    for (int k = 1; k <= 20; ++k) {
      shot::Shot measured;
      measured.hum = 0.1 * k;
      const std::int64_t id = book.add_clip(1, made_up_clip(k, 20000));
      book.set_numbers(id, measured, "test");
      book.add_comment(id, {"", 1.0 * (k % 10), {}, {}, {}, ""});
    }
    book.add_block_comment(1, {"", {}, {}, {}, {}, "all of them"});
  }
  damage_a_sound(path);
  std::string said;
  try {
    Logbook(path).check_whole();
  } catch (const LogbookFailure& failure) {
    said = failure.what();
  }
  EXPECT_NE(said.find("damaged"), std::string::npos) << said;
  EXPECT_NE(said.find("last copy"), std::string::npos) << said;
  std::vector<std::int64_t> unreadable;
  const auto damaged = Logbook(path).blocks();
  ASSERT_EQ(damaged[0].shots.size(), 20U);
  for (const auto& shot : damaged[0].shots) {
    EXPECT_EQ(shot.shot.hum, 0.1 * shot.shot.number) << "numbers are not kept with the sound";
    EXPECT_EQ(shot.comments.at(0).loud, 1.0 * (shot.shot.number % 10));
    EXPECT_EQ(shot.dropped, shot.unreadable ? "the file is damaged under its sound" : "");
    EXPECT_EQ(shot.analyser, shot.unreadable ? "" : "test");
    if (shot.unreadable) unreadable.push_back(shot.id);
  }
  const Exported exported = export_folder(Logbook(path), folder.path("out"));
  ASSERT_EQ(exported.lost.size(), 1U);
  EXPECT_EQ(unreadable, exported.lost);
  EXPECT_EQ(exported.shots, 19U);
  import_folder(folder.path("out"), folder.path("b"));
  const Logbook rest(folder.path("b"));
  rest.check_whole();
  const auto blocks = rest.blocks();
  ASSERT_EQ(blocks[0].shots.size(), 19U);
  for (const auto& shot : blocks[0].shots) {
    EXPECT_NE(shot.id, exported.lost[0]);
    EXPECT_EQ(shot.shot.hum, 0.1 * shot.shot.number);
    EXPECT_EQ(shot.comments.at(0).loud, 1.0 * (shot.shot.number % 10));
    EXPECT_EQ(rest.clip(shot.id).bytes, made_up_clip(shot.shot.number, 20000).bytes);
  }
  EXPECT_EQ(blocks[0].comments.at(0).words, "all of them");
  EXPECT_EQ(rest.setups().size(), 1U);
}

}  // namespace
}  // namespace ringfall::logbook
