// SPDX-License-Identifier: GPL-3.0-or-later
// The program itself, listening to a file played in, killed at any moment. How far it had heard when it died its own
// whole-take recording says to the sample, so nothing here depends on how fast anything is.
#include <fcntl.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <random>

#include "audio/sound_file.h"
#include "logbook/logbook.h"
#include "support/made_session.h"
#include "support/test_folder.h"

namespace ringfall::terminal {
namespace {

constexpr int kKills = 50;
constexpr double kSoundEnds_s = 0.5;  // after the edge: tail and impact are over
constexpr double kAllowed_s = 1.0;

pid_t start_listening(const std::string& book, const std::string& sound, const std::string& takes) {
  std::vector<std::string> words = {RINGFALL_PROGRAM, "listen", book, "--setup", "bare", "--from", sound, "--speed", "30", "--take", takes};
  std::vector<char*> arguments;
  for (auto& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int error = posix_spawn(&child, arguments[0], &quiet, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&quiet);
  return error == 0 ? child : 0;
}

/// Seconds of sound in the take that was left behind; 0 when there is none yet.
double heard_s(const std::string& folder) {
  std::size_t frames = 0;
  std::vector<float> block(1U << 16U);
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (std::filesystem::file_size(entry.path()) < 500) continue;  // killed before the header was whole
    const auto reader = audio::open_sound(entry.path().string());
    while (const std::size_t got = reader->read(block)) frames += got;
  }
  return static_cast<double>(frames) / kSessionRate_hz;
}

TEST(ListenKilled, NoShotWhoseSoundEndedASecondBeforeIsLostSlowUnderSanitizer) {
  const TestFolder folder;
  const MadeSession session = made_session(12, 2.2);
  audio::write_wav(folder.path("a.wav"), session.samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  std::mt19937 random(20261125);
  std::uniform_int_distribution<useconds_t> moment_us(50000, 1100000);
  int due = 0;
  int in_the_middle = 0;
  for (int k = 0; k < kKills; ++k) {
    const std::string book = folder.path("book" + std::to_string(k));
    const std::string takes = folder.path("takes" + std::to_string(k));
    std::filesystem::create_directory(takes);
    // Every other time the distance is not known, and the finder waits for late impacts.
    made_logbook(book, k % 2 == 0 ? std::optional(18.0) : std::nullopt);
    const pid_t child = start_listening(book, folder.path("a.wav"), takes);
    ASSERT_GT(child, 0);
    usleep(moment_us(random));
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    if (!WIFSIGNALED(status)) continue;  // it was through; then the ordinary tests speak
    const double until_s = heard_s(takes);
    const logbook::Logbook after(book);
    after.check_whole();
    std::vector<double> kept_s;
    for (const auto& block : after.blocks()) {
      for (const auto& shot : block.shots) {
        kept_s.push_back(shot.shot.onset_s);
        EXPECT_FALSE(after.clip(shot.id).bytes.empty());
      }
    }
    for (const double edge_s : session.edges_s) {
      if (edge_s + kSoundEnds_s + kAllowed_s > until_s) continue;
      ++due;
      EXPECT_TRUE(std::ranges::any_of(kept_s, [&](double onset_s) { return std::abs(onset_s - edge_s) < 0.002; }))
          << "shot at " << edge_s << " s, killed at " << until_s << " s of sound, run " << k;
    }
    if (until_s > 3.0) ++in_the_middle;
  }
  RecordProperty("shots_due", due);
  // Else nothing was proved.
  EXPECT_GE(in_the_middle, kKills / 4);
  EXPECT_GE(due, kKills);
}

}  // namespace
}  // namespace ringfall::terminal
