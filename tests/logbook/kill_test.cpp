// SPDX-License-Identifier: GPL-3.0-or-later
// Two programs on one file, and programs killed at any moment.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <random>
#include <thread>

#include "logbook/logbook.h"
#include "logbook/made_up.h"
#include "logbook/programs.h"

namespace ringfall::logbook {
namespace {

constexpr int kKills = 220;

/// Adds shots to block 1 from `number` on, and reports each once it is kept, until it is killed.
[[noreturn]] void add_until_killed(const std::string& path, int number, int report) {
  try {
    Logbook book(path);
    for (;; ++number) {
      const std::int64_t id = book.add_clip(1, made_up_clip(number));
      const std::int64_t told[2] = {id, number};
      if (write(report, told, sizeof told) != sizeof told) _exit(1);
      shot::Shot measured;
      measured.hum = number;
      book.set_numbers(id, measured, "test");
    }
  } catch (const std::exception&) {
    _exit(2);
  }
}

TEST(KilledAtAnyMoment, NoKeptShotIsLostSlowUnderSanitizer) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path);
  std::mt19937 random(20261125);
  std::uniform_int_distribution<int> moment_us(200, 25000);
  std::vector<std::pair<std::int64_t, int>> reported;
  int next = 1;
  for (int kill_count = 0; kill_count < kKills; ++kill_count) {
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const pid_t child = fork();
    ASSERT_GE(child, 0);
    if (child == 0) add_until_killed(path, next, ends[1]);
    close(ends[1]);
    std::int64_t told[2];
    const auto hear = [&] { return read(ends[0], told, sizeof told) == sizeof told; };
    // Every fourth dies while it opens the file, the others some time after their first shot.
    if (kill_count % 4 != 0 && hear()) reported.emplace_back(told[0], static_cast<int>(told[1]));
    usleep(static_cast<useconds_t>(moment_us(random)));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    ASSERT_TRUE(WIFSIGNALED(status)) << "the child gave up by itself";
    while (hear()) reported.emplace_back(told[0], static_cast<int>(told[1]));
    close(ends[0]);
    const Logbook book(path);
    const auto shots = book.blocks()[0].shots;
    ASSERT_GE(shots.size(), reported.size());
    ASSERT_LE(shots.size(), reported.size() + static_cast<std::size_t>(kill_count) + 1);
    // At most the last shot of each child is kept and not measured; numbers are whole or not there.
    for (const auto& shot : shots) {
      ASSERT_EQ(shot.shot.hum.has_value(), !shot.analyser.empty());
      ASSERT_EQ(shot.shot.hum.value_or(shot.shot.number), shot.shot.number);
    }
    next = shots.empty() ? 1 : shots.back().shot.number + 1;
    if (kill_count % 20 == 0) book.check_whole();
  }
  const Logbook book(path);
  book.check_whole();
  ASSERT_GE(reported.size(), static_cast<std::size_t>(kKills) / 2) << "too few shots to prove anything";
  for (const auto& [id, number] : reported) {
    const CodedClip clip = book.clip(id);
    ASSERT_EQ(clip.number, number);
    ASSERT_EQ(clip.bytes, made_up_clip(number).bytes);
  }
}

constexpr int kEdgeKills = 60;

TEST(KilledAtAnyMoment, NoOldNumberStandsBesideANewEdgeSlowUnderSanitizer) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path).add_clip(1, made_up_clip(1));
  std::mt19937 random(20261126);
  std::uniform_int_distribution<int> moment_us(200, 50000);
  int without_numbers = 0;
  for (int kill_count = 0; kill_count < kEdgeKills; ++kill_count) {
    Program mover([&](const Program::Line& line) {
      Logbook book(path);
      line.tell(1);
      for (int k = 1;; ++k) {
        const double edge_s = 2.5 + 0.001 * ((7 * kill_count + k) % 400);  // each child begins elsewhere
        k % 5 == 0 ? book.undo_correction(1) : book.move_edge(1, edge_s);
        shot::Shot measured;
        measured.hum = book.clip(1).onset_s;  // a number that tells its edge
        book.set_numbers(1, measured, "test");
      }
      return 1;
    });
    ASSERT_TRUE(mover.line().hear());
    usleep(static_cast<useconds_t>(moment_us(random)));
    mover.kill();
    const auto shot = Logbook(path).blocks()[0].shots[0];
    if (shot.analyser.empty()) {
      ++without_numbers;
      EXPECT_FALSE(shot.shot.hum);
    } else {
      EXPECT_EQ(shot.shot.hum, shot.shot.onset_s);
    }
  }
  EXPECT_GT(without_numbers, 0) << "no kill came between the two";
  Logbook(path).check_whole();
}

/// A process that closes any file of its own ends all its locks on that file (POSIX.1-2017 fcntl, "All locks associated with a
/// file for a given process shall be removed when a file descriptor for that file is closed"). Another program then took itself
/// for the last one and the log away, with what was written into it afterwards.
TEST(TwoPrograms, LookingAtAFileThatIsOpenLosesNothing) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  made_up_logbook(path);
  Program keeper([&](const Program::Line& line) {
    Logbook book(path);
    book.blocks();
    { const Logbook second(path); }
    if (!is_sqlite_file(path)) return 2;
    if (!line.tell(1) || !line.hear()) return 1;
    line.tell(book.add_clip(1, made_up_clip(1)));
    return line.hear() ? 0 : 1;
  });
  Program other([&](const Program::Line& line) {
    if (!line.hear()) return 1;
    return Logbook(path).blocks().size() == 1 ? 0 : 2;
  });
  ASSERT_TRUE(keeper.line().hear());
  other.line().tell(1);
  EXPECT_EQ(other.status(), 0);
  keeper.line().tell(1);
  ASSERT_TRUE(keeper.line().hear()) << "the shot was reported as kept";
  keeper.kill();
  EXPECT_EQ(Logbook(path).blocks()[0].shots.size(), 1U);
}

/// Adds shots to a block of an old logbook that others open at the same time.
int add_shots(const Program::Line& line, const std::string& path, std::int64_t block, int count) {
  if (!line.tell(1) || !line.hear()) return 1;
  Logbook book(path);
  for (int k = 0; k < count; ++k) {
    CodedClip clip = made_up_clip(100 * static_cast<int>(block) + k);
    clip.number = 0;
    const std::int64_t id = book.add_clip(block, clip);
    shot::Shot measured;
    measured.hum = clip.onset_s;
    book.set_numbers(id, measured, "test");
    book.add_comment(id, {"", 1.0, {}, {}, {}, ""});
  }
  return 0;
}

TEST(TwoPrograms, BringAnOldFileUpAndWriteAtTheSameTime) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  make_old_logbook(path, 1);  // two blocks with two shots and one
  constexpr int kShots = 40;
  Program one([&](const Program::Line& line) { return add_shots(line, path, 1, kShots); });
  Program two([&](const Program::Line& line) { return add_shots(line, path, 2, kShots); });
  Program reader([&](const Program::Line& line) {
    if (!line.tell(1) || !line.hear()) return 1;
    const Logbook book(path);
    std::size_t before = 3;
    while (before < 2U * kShots + 3) {
      std::size_t now = 0;
      for (const auto& block : book.blocks()) {
        now += block.shots.size();
        for (const auto& shot : block.shots) {
          if (shot.analyser == "test" && shot.shot.hum != shot.shot.onset_s) return 2;
        }
      }
      if (now < before) return 3;
      before = now;
    }
    return 0;
  });
  for (Program* program : {&one, &two, &reader}) ASSERT_TRUE(program->line().hear());
  for (Program* program : {&one, &two, &reader}) program->line().tell(1);
  const int failed = one.status() + two.status();
  if (failed != 0) reader.kill();  // it would wait for shots that don't come
  ASSERT_EQ(failed, 0);
  EXPECT_EQ(reader.status(), 0);
  const Logbook book(path);
  book.check_whole();
  const auto blocks = book.blocks();
  EXPECT_EQ(blocks[0].shots.size(), kShots + 2U);
  EXPECT_EQ(blocks[1].shots.size(), kShots + 1U);
}

TEST(TwoPrograms, WriteAtTheSameTimeThreads) {
  const TestFolder folder;
  const std::string path = folder.path("a");
  Logbook first = made_up_logbook(path);
  first.add_block({"bare", "b.wav", 48000.0, "", "", {}});
  constexpr int kShots = 60;
  const auto add = [&path](std::int64_t block) {
    Logbook book(path);
    for (int k = 1; k <= kShots; ++k) {
      const std::int64_t id = book.add_clip(block, made_up_clip(k));
      book.set_numbers(id, shot::Shot{}, "test");
    }
  };
  {
    const std::jthread one(add, 1);
    const std::jthread two(add, 2);
  }
  first.check_whole();
  const auto blocks = first.blocks();
  for (const auto& block : blocks) {
    ASSERT_EQ(block.shots.size(), static_cast<std::size_t>(kShots));
    for (const auto& shot : block.shots) EXPECT_EQ(shot.analyser, "test");
  }
}

}  // namespace
}  // namespace ringfall::logbook
