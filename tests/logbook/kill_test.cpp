// SPDX-License-Identifier: GPL-3.0-or-later
// Two programs on one file, and programs killed at any moment.
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>

#include <random>
#include <thread>

#include "logbook/logbook.h"
#include "logbook/made_up.h"

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
