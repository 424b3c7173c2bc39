// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "support/test_folder.h"

namespace ringfall {

/// A private sound server with one mono 48 kHz sink that leads nowhere, whose monitor is the only microphone this process (and
/// what it starts) can see, under the name kNullMicrophone. Needs neither sound hardware nor a desktop.
class NullSink {
 public:
  /// Is there a sound server to start? When not, tests that need one are skipped.
  static bool possible();

  NullSink();
  ~NullSink();
  NullSink(const NullSink&) = delete;
  NullSink& operator=(const NullSink&) = delete;

  /// Starts playing a sound file into the sink; returns at once.
  void play(const std::string& path);
  /// Waits for the end of what plays.
  void wait_for_player();
  /// As a crash: SIGKILL.
  void kill_server();
  /// Starts the server (again) and waits until it answers.
  void start_server();
  /// SIGSTOP and SIGCONT: the server hangs, and goes on.
  void freeze_server(bool freeze);
  /// The sink falls silent without a word, and comes back.
  void suspend(bool suspend);

 private:
  const TestFolder folder_;
  pid_t server_ = 0;
  pid_t player_ = 0;
  std::vector<std::pair<const char*, std::optional<std::string>>> before_;  ///< the environment
};

inline constexpr const char* kNullMicrophone = "probe_mon";

}  // namespace ringfall
