// SPDX-License-Identifier: GPL-3.0-or-later
// The program killed at any moment of a verb: afterwards the logbook is whole, nothing that was kept is lost, what has a final name is
// complete, and the same command works. Moments are drawn (seeded) over the length of one whole run, so nothing depends on how fast a machine
// is. RINGFALL_KILLS sets the kills a verb. Listening has its own: listen_kill_test.cpp.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <optional>
#include <random>
#include <thread>
#include <utility>

#include "intake/kept_clip.h"
#include "logbook/export.h"
#include "logbook/logbook.h"
#include "terminal/exit_status.h"
#include "terminal/program.h"

namespace ringfall::terminal {
namespace {

namespace fs = std::filesystem;
using Seconds = std::chrono::duration<double>;

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr int kKillsAVerb = 5;
#else
constexpr int kKillsAVerb = 60;
#endif
constexpr std::size_t kShots = 5;  // of the first recording

int kills() {
  const char* wanted = std::getenv("RINGFALL_KILLS");
  return wanted == nullptr ? kKillsAVerb : std::atoi(wanted);
}

pid_t started(std::vector<std::string> words) {
  words.insert(words.begin(), RINGFALL_PROGRAM);
  std::vector<char*> arguments;
  for (auto& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  for (const int end : {STDOUT_FILENO, STDERR_FILENO}) posix_spawn_file_actions_addopen(&quiet, end, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int error = posix_spawn(&child, arguments[0], &quiet, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&quiet);
  return error == 0 ? child : 0;
}

/// Its status, or -1 when it was killed `after`.
int ended(pid_t child, std::optional<Seconds> after) {
  if (after) std::this_thread::sleep_for(*after);
  if (after) kill(child, SIGKILL);
  int status = 0;
  waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

class Killed : public ::testing::Test {
 protected:
  /// Runs `words` (made for a fresh folder with the logbook "a" in it) to its end once, then kills it over and over; `look` says what must hold.
  void kill_often(bool with_shots, const std::function<std::vector<std::string>(const TestFolder&)>& words,
                  const std::function<void(const TestFolder&)>& look) {
    const TestFolder master;
    ASSERT_EQ(run_program({"start", master.path("a"), "--bow", "b"}).status, kDone);
    if (with_shots) {
      ASSERT_EQ(run_program({"add", master.path("a"), recording(), "--setup", "bare"}).status, kDone);
    }
    Seconds whole{0.0};
    {
      const TestFolder folder;
      fs::copy_file(master.path("a"), folder.path("a"));
      const auto command = words(folder);  // makes the demo, the first time
      const auto begun = std::chrono::steady_clock::now();
      ASSERT_EQ(ended(started(command), std::nullopt), kDone);
      whole = std::chrono::steady_clock::now() - begun;
    }
    std::mt19937 random(20261128);
    int killed = 0;
    for (int k = 0; k < kills(); ++k) {
      const TestFolder folder;
      fs::copy_file(master.path("a"), folder.path("a"));
      const double share = static_cast<double>(random()) / static_cast<double>(std::mt19937::max());
      if (ended(started(words(folder)), whole * share) == -1) ++killed;
      look(folder);
      if (HasFailure()) FAIL() << "kill " << k << " at a share of " << share;
    }
    EXPECT_GT(killed, kills() / 4) << "most of them were killed at work";
  }

  static std::string recording() { return fives_folder() + "/block1-bare.wav"; }

  /// `check` by the same calls, without the program's start.
  static void expect_whole(const std::string& path, std::size_t shots) {
    const logbook::Logbook book(path);
    EXPECT_EQ(book.what_is_wrong(), std::nullopt);
    EXPECT_TRUE(intake::damaged_clips(book).empty());
    std::size_t found = 0;
    for (const auto& block : book.blocks()) found += block.shots.size();
    EXPECT_EQ(found, shots);
  }
};

TEST_F(Killed, AddKeepsABlockOrNothingSlowUnderSanitizer) {
  kill_often(
      false, [](const TestFolder& folder) { return std::vector<std::string>{"add", folder.path("a"), recording(), "--setup", "bare", "--new"}; },
      [](const TestFolder& folder) {
        std::size_t blocks = 0;
        std::size_t setups = 0;
        {
          const logbook::Logbook book(folder.path("a"));
          blocks = book.blocks().size();
          setups = book.setups().size();
        }
        EXPECT_EQ(blocks, setups) << "a set-up comes with its block";
        expect_whole(folder.path("a"), blocks * kShots);
        const int again = ended(started({"add", folder.path("a"), recording(), "--setup", "bare", "--new"}), std::nullopt);
        EXPECT_EQ(again, blocks == 0 ? kDone : kBadCommand);
        expect_whole(folder.path("a"), kShots);
      });
}

TEST_F(Killed, CopyIsWholeOrNotThereSlowUnderSanitizer) {
  kill_often(
      true, [](const TestFolder& folder) { return std::vector<std::string>{"copy", folder.path("a"), folder.path("copy")}; },
      [](const TestFolder& folder) {
        if (!fs::exists(folder.path("copy"))) logbook::Logbook(folder.path("a")).copy_to(folder.path("copy"));
        expect_whole(folder.path("copy"), kShots);
        expect_whole(folder.path("a"), kShots);
      });
}

TEST_F(Killed, ExportIsWholeOrNotThereSlowUnderSanitizer) {
  kill_often(
      true, [](const TestFolder& folder) { return std::vector<std::string>{"export", folder.path("a"), folder.path("out")}; },
      [](const TestFolder& folder) {
        if (!fs::exists(folder.path("out"))) logbook::export_folder(logbook::Logbook(folder.path("a")), folder.path("out"));
        logbook::import_folder(folder.path("out"), folder.path("b"), intake::need_whole_sounds);
        expect_whole(folder.path("b"), kShots);
      });
}

TEST_F(Killed, ImportIsWholeOrNotThereSlowUnderSanitizer) {
  const TestFolder exported;
  bool first = true;
  kill_often(
      true,
      [&](const TestFolder& folder) {
        if (std::exchange(first, false)) logbook::export_folder(logbook::Logbook(folder.path("a")), exported.path("out"));
        return std::vector<std::string>{"import", exported.path("out"), folder.path("b")};
      },
      [&](const TestFolder& folder) {
        if (!fs::exists(folder.path("b"))) logbook::import_folder(exported.path("out"), folder.path("b"), intake::need_whole_sounds);
        expect_whole(folder.path("b"), kShots);
      });
}

TEST_F(Killed, RemeasureLosesNothingSlowUnderSanitizer) {
  kill_often(
      true, [](const TestFolder& folder) { return std::vector<std::string>{"remeasure", folder.path("a")}; },
      [](const TestFolder& folder) {
        expect_whole(folder.path("a"), kShots);
        for (const auto& block : logbook::Logbook(folder.path("a")).blocks()) {
          for (const auto& kept : block.shots) EXPECT_FALSE(kept.analyser.empty()) << "numbers are the old or the new ones";
        }
      });
}

TEST_F(Killed, PictureOfAShotIsWholeOrNotThereSlowUnderSanitizer) {
  kill_often(
      true, [](const TestFolder& folder) { return std::vector<std::string>{"show", folder.path("a"), "1", "--plot", folder.path("out")}; },
      [](const TestFolder& folder) {
        if (!fs::exists(folder.path("out"))) return;
        for (const auto& entry : fs::directory_iterator(folder.path("out"))) {
          if (entry.path().filename().string().starts_with(".ringfall-")) continue;
          const std::string text = file_text(entry.path().string());
          // "PNG (Portable Network Graphics) Specification" 11.2.5: the last chunk, of no bytes, with its CRC.
          const bool png = entry.path().extension() == ".png";
          EXPECT_TRUE(png ? text.ends_with("IEND\xAE\x42\x60\x82") : text.ends_with("</svg>\n")) << entry.path();
        }
      });
}

}  // namespace
}  // namespace ringfall::terminal
