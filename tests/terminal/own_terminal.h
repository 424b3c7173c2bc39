// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <sys/types.h>
#include <termios.h>

#include <string>
#include <vector>

namespace ringfall::terminal {

/// A program run on a terminal of its own (a pseudo-terminal) under a parent that, as a shell does, notices when it stops and can
/// let it go on. Everything waits for what it asks for and gives up after half a minute.
class OwnTerminal {
 public:
  explicit OwnTerminal(const std::vector<std::string>& words);
  ~OwnTerminal();
  OwnTerminal(const OwnTerminal&) = delete;
  OwnTerminal& operator=(const OwnTerminal&) = delete;

  termios flags() const;
  /// Before the program began.
  const termios& before() const { return before_; }
  void type(const std::string& keys) const;
  /// Reads what is printed until this has come; false: it has not.
  bool printed(const std::string& text);
  /// As waitpid() gives it: when the program stops or ends. -1: neither.
  int status();
  /// What `fg` does in a shell.
  void foreground() const;
  pid_t program() const { return program_; }
  const std::string& text() const { return text_; }

 private:
  bool read_some();
  int master_ = -1;
  int news_ = -1;      ///< the parent's reports
  int commands_ = -1;  ///< what the parent is to do
  pid_t parent_ = 0;
  pid_t program_ = 0;
  std::string text_;
  termios before_{};
};

/// Are these the same in everything a program can change?
bool same_flags(const termios& one, const termios& other);

}  // namespace ringfall::terminal
