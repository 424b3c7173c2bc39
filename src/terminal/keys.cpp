// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/keys.h"

#include <poll.h>
#include <unistd.h>

#include <csignal>
#include <initializer_list>
#include <thread>

namespace ringfall::terminal {
namespace {

// A signal handler can reach nothing else.
volatile std::sig_atomic_t end_wanted = 0;
void note_end(int) { end_wanted = 1; }

}  // namespace

Keys::Keys() : there_(isatty(STDIN_FILENO) == 1 && tcgetattr(STDIN_FILENO, &before_) == 0) {
  if (!there_) return;
  termios single = before_;
  single.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
  single.c_cc[VMIN] = 0;
  single.c_cc[VTIME] = 0;
  tcsetattr(STDIN_FILENO, TCSANOW, &single);
}

Keys::~Keys() {
  if (there_) tcsetattr(STDIN_FILENO, TCSANOW, &before_);
}

std::optional<char> Keys::next(std::chrono::milliseconds patience) {
  if (!there_) {
    std::this_thread::sleep_for(patience);
    return std::nullopt;
  }
  pollfd input{STDIN_FILENO, POLLIN, 0};
  char key = 0;
  if (poll(&input, 1, static_cast<int>(patience.count())) <= 0 || read(STDIN_FILENO, &key, 1) != 1) return std::nullopt;
  return key;
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
