// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/child_process.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cmath>
#include <thread>

#include "audio/system_reason.h"
#include "base/failure.h"

namespace ringfall::audio {
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::size_t kMostComplaintBytes = 4096;
constexpr auto kBetweenLooks = std::chrono::milliseconds(2);

struct Pipe {
  UniqueFd read_end;
  UniqueFd write_end;
};

Pipe make_pipe() {
  std::array<int, 2> ends{};
  if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw FileFailure("No pipe to a decoder could be made (" + system_reason(errno) + ").");
  return {UniqueFd(ends[0]), UniqueFd(ends[1])};
}

// What the child gets instead of what this process holds.
class SpawnSetup {
 public:
  SpawnSetup(const Pipe& output, const Pipe& errors) {
    ::posix_spawn_file_actions_init(&actions_);
    ::posix_spawn_file_actions_addopen(&actions_, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    ::posix_spawn_file_actions_adddup2(&actions_, output.write_end.get(), STDOUT_FILENO);
    ::posix_spawn_file_actions_adddup2(&actions_, errors.write_end.get(), STDERR_FILENO);
    ::posix_spawnattr_init(&attributes_);
    // A child must die of a closed pipe even where this process ignores or blocks that signal.
    sigset_t signals;
    sigemptyset(&signals);
    ::posix_spawnattr_setsigmask(&attributes_, &signals);
    sigaddset(&signals, SIGPIPE);
    ::posix_spawnattr_setsigdefault(&attributes_, &signals);
    ::posix_spawnattr_setflags(&attributes_, POSIX_SPAWN_SETSIGMASK | POSIX_SPAWN_SETSIGDEF);
  }
  ~SpawnSetup() {
    ::posix_spawn_file_actions_destroy(&actions_);
    ::posix_spawnattr_destroy(&attributes_);
  }
  SpawnSetup(const SpawnSetup&) = delete;
  SpawnSetup& operator=(const SpawnSetup&) = delete;

  int spawn(pid_t& pid, const std::string& program, const std::vector<std::string>& arguments) {
    std::vector<std::string> texts{program};
    texts.insert(texts.end(), arguments.begin(), arguments.end());
    std::vector<char*> words;
    for (std::string& text : texts) words.push_back(text.data());
    words.push_back(nullptr);
    return ::posix_spawn(&pid, program.c_str(), &actions_, &attributes_, words.data(), environ);
  }

 private:
  posix_spawn_file_actions_t actions_{};
  posix_spawnattr_t attributes_{};
};

Clock::time_point after(double seconds) {
  return Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds));
}

int milliseconds_until(Clock::time_point when) {
  const double left_ms = std::chrono::duration<double, std::milli>(when - Clock::now()).count();
  return static_cast<int>(std::ceil(std::clamp(left_ms, 0.0, 1e9)));
}

}  // namespace

ChildProcess::ChildProcess(const std::string& program, const std::vector<std::string>& arguments) {
  Pipe output = make_pipe();
  Pipe errors = make_pipe();
  SpawnSetup setup(output, errors);
  const int error = setup.spawn(pid_, program, arguments);
  if (error != 0) {
    pid_ = -1;
    throw FileFailure(program + ": can't be started (" + system_reason(error) + "); reinstall the package it belongs to.");
  }
  output_ = std::move(output.read_end);
  errors_ = std::move(errors.read_end);
}

ChildProcess::~ChildProcess() { kill_and_reap(); }

std::optional<std::size_t> ChildProcess::read(std::span<std::byte> into, double limit_s) {
  if (!output_.open()) return 0;
  const auto deadline = after(limit_s);
  while (true) {
    // A negative descriptor is passed over by poll.
    std::array<pollfd, 2> waiting{{{output_.get(), POLLIN, 0}, {errors_.get(), POLLIN, 0}}};
    const int ready = ::poll(waiting.data(), waiting.size(), milliseconds_until(deadline));
    if (ready < 0 && errno != EINTR) throw FileFailure("Waiting for a decoder failed (" + system_reason(errno) + ").");
    if (ready > 0 && waiting[1].revents != 0) take_complaints();
    if (ready > 0 && waiting[0].revents != 0) {
      const ssize_t got = ::read(output_.get(), into.data(), into.size());
      if (got > 0) return static_cast<std::size_t>(got);
      if (got == 0) {
        output_.reset();
        return 0;
      }
      if (errno != EINTR) throw FileFailure("Reading from a decoder failed (" + system_reason(errno) + ").");
    }
    if (Clock::now() >= deadline) {
      kill_and_reap();
      return std::nullopt;
    }
  }
}

void ChildProcess::take_complaints() {
  std::array<char, 1024> text{};
  const ssize_t got = ::read(errors_.get(), text.data(), text.size());
  if (got < 0 && errno == EINTR) return;
  if (got <= 0) {
    errors_.reset();
    return;
  }
  // What does not fit is read and dropped, or the child would wait for us.
  const std::size_t room = kMostComplaintBytes - complaints_.size();
  complaints_.append(text.data(), std::min(room, static_cast<std::size_t>(got)));
}

std::optional<int> ChildProcess::wait(double limit_s) {
  const auto deadline = after(limit_s);
  while (errors_.open() && Clock::now() < deadline) {
    pollfd waiting{errors_.get(), POLLIN, 0};
    if (::poll(&waiting, 1, milliseconds_until(deadline)) > 0) take_complaints();
  }
  while (pid_ > 0) {
    int status = 0;
    const pid_t gone = ::waitpid(pid_, &status, WNOHANG);
    if (gone == pid_) {
      pid_ = -1;
      if (WIFEXITED(status)) exit_status_ = WEXITSTATUS(status);
    } else if ((gone < 0 && errno != EINTR) || Clock::now() >= deadline) {
      kill_and_reap();
    } else {
      std::this_thread::sleep_for(kBetweenLooks);
    }
  }
  return exit_status_;
}

void ChildProcess::kill_and_reap() {
  output_.reset();
  errors_.reset();
  if (pid_ <= 0) return;
  ::kill(pid_, SIGKILL);
  int status = 0;
  while (::waitpid(pid_, &status, 0) < 0 && errno == EINTR) {
  }
  pid_ = -1;
}

}  // namespace ringfall::audio
