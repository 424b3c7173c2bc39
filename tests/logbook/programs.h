// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdint>
#include <cstdio>
#include <exception>
#include <functional>
#include <stdexcept>

namespace ringfall::logbook {

/// Another program at the same file: a child process. Start it while this one has no logbook open, since a connection of SQLite must
/// not be carried over a fork ("How To Corrupt An SQLite Database File" 2.6).
class Program {
 public:
  /// The child's end of a line to its parent: whole numbers, one at a time.
  class Line {
   public:
    explicit Line(int end) : end_(end) {}
    bool tell(std::int64_t number) const { return send(end_, &number, sizeof number, MSG_NOSIGNAL) == sizeof number; }
    /// Waits for a number of the other side; false: it is gone.
    bool hear(std::int64_t& number) const { return recv(end_, &number, sizeof number, MSG_WAITALL) == sizeof number; }
    bool hear() const {
      std::int64_t any = 0;
      return hear(any);
    }

   private:
    int end_;
  };

  /// `act` gives the exit status; one that throws ends with 99.
  explicit Program(const std::function<int(const Line&)>& act) {
    int ends[2];
    if (socketpair(AF_UNIX, SOCK_STREAM, 0, ends) != 0) throw std::runtime_error("no line to another process can be made");
    child_ = fork();
    if (child_ < 0) throw std::runtime_error("no other process can be started");
    if (child_ == 0) {
      close(ends[0]);
      int status = 99;
      try {
        status = act(Line(ends[1]));
      } catch (const std::exception& failure) {
        fprintf(stderr, "%s\n", failure.what());
      }
      _exit(status);
    }
    close(ends[1]);
    end_ = ends[0];
  }
  ~Program() {
    close(end_);
    if (child_ > 0) kill();
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  Line line() const { return Line(end_); }
  /// Its exit status once it has ended; -1: by a signal.
  int status() {
    int status = 0;
    waitpid(child_, &status, 0);
    child_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }
  void kill() {
    ::kill(child_, SIGKILL);
    status();
  }

 private:
  pid_t child_ = 0;
  int end_ = -1;
};

}  // namespace ringfall::logbook
