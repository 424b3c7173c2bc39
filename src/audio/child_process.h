// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "audio/unique_fd.h"

namespace ringfall::audio {

/// A program run without a shell, whose output is read while it runs. Its standard input is empty; it inherits no open file.
/// Destroying it early kills it; it never stays behind as a zombie.
class ChildProcess {
 public:
  /// `program` is a full name; `arguments` without the program itself. FileFailure when it can't be started.
  ChildProcess(const std::string& program, const std::vector<std::string>& arguments);
  ~ChildProcess();
  ChildProcess(const ChildProcess&) = delete;
  ChildProcess& operator=(const ChildProcess&) = delete;

  /// Reads some bytes of its output as soon as there are any; 0: it has closed its output. Nullopt when nothing came for
  /// `limit_s`: the child has been killed then. Only the waiting in here counts, not the time between two calls.
  std::optional<std::size_t> read(std::span<std::byte> into, double limit_s);

  /// Waits for its end (killed when that takes longer than `limit_s`). Exit status, or nullopt when a signal ended it.
  std::optional<int> wait(double limit_s);

  /// What it wrote to standard error so far, the first 4 kB.
  const std::string& complaints() const { return complaints_; }

 private:
  void take_complaints();
  void kill_and_reap();

  pid_t pid_ = -1;  ///< -1: reaped
  std::optional<int> exit_status_;
  UniqueFd output_;
  UniqueFd errors_;
  std::string complaints_;
};

}  // namespace ringfall::audio
