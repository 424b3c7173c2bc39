// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <optional>

namespace ringfall::terminal {

/// Single keys from the terminal, without Enter and without echo, while it lives; one at a time. Without a terminal at standard input
/// there are no keys. The terminal is as it was afterwards, also when a signal stops the program (Ctrl-Z; `fg` takes the keys again)
/// or ends it in the middle of something (a fault in a sound library). In the background there are no keys and nothing is changed.
/// Tested on a terminal of its own: terminal.ListenTerminal.*
class Keys {
 public:
  Keys();
  ~Keys();
  Keys(const Keys&) = delete;
  Keys& operator=(const Keys&) = delete;

  bool there() const { return there_; }
  /// The next key; nullopt: none came in this time.
  std::optional<char> next(std::chrono::milliseconds patience);

 private:
  bool there_ = false;
};

/// While it lives, Ctrl-C, the end of the terminal and a request to end do not end the program but are noted.
class EndRequests {
 public:
  EndRequests();
  ~EndRequests();
  EndRequests(const EndRequests&) = delete;
  EndRequests& operator=(const EndRequests&) = delete;
  static bool wanted();
};

}  // namespace ringfall::terminal
