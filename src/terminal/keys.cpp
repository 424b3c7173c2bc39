// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/keys.h"

#include <poll.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <initializer_list>
#include <thread>

namespace ringfall::terminal {
namespace {

// A signal handler can reach nothing else.
volatile std::sig_atomic_t end_wanted = 0;
void note_end(int) { end_wanted = 1; }

/// The terminal as it was before the keys were taken. Written once, before the first handler is set.
termios as_before;
/// Ends or stops the program where it stands, the terminal with it.
constexpr std::array kEnding = {SIGQUIT, SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGPIPE};
std::array<struct sigaction, kEnding.size()> ending_before;
struct sigaction stopping_before;
struct sigaction going_on_before;

/// A program in the background that touches the terminal is stopped.
bool in_the_foreground() { return tcgetpgrp(STDIN_FILENO) == getpgrp(); }

// tcgetpgrp, getpgrp, tcsetattr, sigaction and raise may be called in a handler (POSIX.1-2008, 2.4.3).
void give_back() {
  if (in_the_foreground()) tcsetattr(STDIN_FILENO, TCSANOW, &as_before);
}

void take() {
  if (!in_the_foreground()) return;
  termios single = as_before;
  single.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
  single.c_cc[VMIN] = 0;
  single.c_cc[VTIME] = 0;
  tcsetattr(STDIN_FILENO, TCSANOW, &single);
}

void end_here(int signal) {
  give_back();
  for (std::size_t k = 0; k < kEnding.size(); ++k) {
    if (kEnding[k] == signal) sigaction(signal, &ending_before[k], nullptr);
  }
  // Blocked until this returns; a fault happens again then anyway.
  raise(signal);
}

void stop_here(int signal) {
  const int error = errno;
  give_back();
  sigaction(signal, &stopping_before, nullptr);
  raise(signal);
  errno = error;
}

struct sigaction handled_by(void (*handler)(int)) {
  struct sigaction action {};
  action.sa_handler = handler;
  action.sa_flags = SA_RESTART;
  return action;
}

void go_on_here(int) {
  const int error = errno;
  const struct sigaction stopping = handled_by(stop_here);
  if (stopping_before.sa_handler != SIG_IGN) sigaction(SIGTSTP, &stopping, nullptr);
  take();
  errno = error;
}

}  // namespace

Keys::Keys() : there_(isatty(STDIN_FILENO) == 1 && tcgetattr(STDIN_FILENO, &as_before) == 0) {
  if (!there_) return;
  const struct sigaction ending = handled_by(end_here);
  for (std::size_t k = 0; k < kEnding.size(); ++k) sigaction(kEnding[k], &ending, &ending_before[k]);
  const struct sigaction stopping = handled_by(stop_here);
  sigaction(SIGTSTP, &stopping, &stopping_before);
  // Where nobody could let it go on, it stays so.
  if (stopping_before.sa_handler == SIG_IGN) sigaction(SIGTSTP, &stopping_before, nullptr);
  const struct sigaction going_on = handled_by(go_on_here);
  sigaction(SIGCONT, &going_on, &going_on_before);
  take();
}

Keys::~Keys() {
  if (!there_) return;
  sigaction(SIGCONT, &going_on_before, nullptr);
  sigaction(SIGTSTP, &stopping_before, nullptr);
  for (std::size_t k = 0; k < kEnding.size(); ++k) sigaction(kEnding[k], &ending_before[k], nullptr);
  give_back();
}

std::optional<char> Keys::next(std::chrono::milliseconds patience) {
  if (!there_ || !in_the_foreground()) {
    std::this_thread::sleep_for(patience);
    return std::nullopt;
  }
  pollfd input{STDIN_FILENO, POLLIN, 0};
  char key = 0;
  if (poll(&input, 1, static_cast<int>(patience.count())) <= 0) return std::nullopt;
  if (input.revents & POLLIN) {
    if (read(STDIN_FILENO, &key, 1) == 1) return key;
    return std::nullopt;
  }
  std::this_thread::sleep_for(patience);  // the terminal is gone; SIGHUP says so
  return std::nullopt;
}

EndRequests::EndRequests() {
  end_wanted = 0;
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, note_end);
}

EndRequests::~EndRequests() {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) std::signal(signal, SIG_DFL);
}

bool EndRequests::wanted() { return end_wanted != 0; }

}  // namespace ringfall::terminal
