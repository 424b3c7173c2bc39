// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/own_terminal.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/ioctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <stdexcept>

namespace ringfall::terminal {
namespace {

using namespace std::chrono_literals;
constexpr auto kPatience = 30s;

/// The parent of the program, with its terminal. After fork(): system calls only.
[[noreturn]] void be_the_parent(const char* terminal, char** arguments, int news, int commands) {
  setsid();
  const int slave = open(terminal, O_RDWR);
  ioctl(slave, TIOCSCTTY, 0);
  for (const int standard : {0, 1, 2}) dup2(slave, standard);
  signal(SIGTTOU, SIG_IGN);
  const pid_t program = fork();
  if (program == 0) {
    setpgid(0, 0);
    tcsetpgrp(0, getpid());
    signal(SIGTTOU, SIG_DFL);
    close(news);
    close(commands);
    const rlimit no_core{0, 0};
    setrlimit(RLIMIT_CORE, &no_core);
    execv(arguments[0], arguments);
    _exit(127);
  }
  setpgid(program, program);
  [[maybe_unused]] ssize_t done = write(news, &program, sizeof program);
  for (;;) {
    int status = 0;
    if (waitpid(program, &status, WUNTRACED) != program) _exit(1);
    tcsetpgrp(0, getpid());
    done = write(news, &status, sizeof status);
    char command = 0;
    if (read(commands, &command, 1) != 1 || !WIFSTOPPED(status)) break;
    tcsetpgrp(0, program);
    kill(-program, SIGCONT);
  }
  kill(-program, SIGKILL);
  _exit(0);
}

}  // namespace

OwnTerminal::OwnTerminal(const std::vector<std::string>& words) {
  master_ = posix_openpt(O_RDWR | O_NOCTTY | O_CLOEXEC);
  std::array<int, 2> news{};
  std::array<int, 2> commands{};
  if (master_ < 0 || grantpt(master_) != 0 || unlockpt(master_) != 0 || pipe(news.data()) != 0 || pipe(commands.data()) != 0) {
    throw std::runtime_error("no pseudo-terminal");
  }
  const std::string terminal = ptsname(master_);
  before_ = flags();
  std::vector<std::string> kept = words;
  std::vector<char*> arguments;
  for (auto& word : kept) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  parent_ = fork();
  if (parent_ == 0) {
    close(news[0]);
    close(commands[1]);
    be_the_parent(terminal.c_str(), arguments.data(), news[1], commands[0]);
  }
  close(news[1]);
  close(commands[0]);
  news_ = news[0];
  commands_ = commands[1];
  if (read(news_, &program_, sizeof program_) != sizeof program_) throw std::runtime_error("the program was not started");
}

OwnTerminal::~OwnTerminal() {
  close(commands_);
  kill(program_, SIGKILL);
  int status = 0;
  waitpid(parent_, &status, 0);
  close(news_);
  close(master_);
}

termios OwnTerminal::flags() const {
  termios flags{};
  if (tcgetattr(master_, &flags) != 0) throw std::runtime_error("the terminal says nothing of its flags");
  return flags;
}

void OwnTerminal::type(const std::string& keys) const {
  if (write(master_, keys.data(), keys.size()) < 0) throw std::runtime_error("the terminal takes no keys");
}

bool OwnTerminal::read_some() {
  pollfd output{master_, POLLIN, 0};
  std::array<char, 4096> block{};
  if (poll(&output, 1, 20) <= 0 || (output.revents & POLLIN) == 0) return false;
  const ssize_t got = read(master_, block.data(), block.size());
  if (got > 0) text_.append(block.data(), static_cast<std::size_t>(got));
  return got > 0;
}

bool OwnTerminal::printed(const std::string& text) {
  const auto until = std::chrono::steady_clock::now() + kPatience;
  while (text_.find(text) == std::string::npos) {
    if (std::chrono::steady_clock::now() > until) return false;
    read_some();
  }
  return true;
}

int OwnTerminal::status() {
  const auto until = std::chrono::steady_clock::now() + kPatience;
  while (std::chrono::steady_clock::now() < until) {
    read_some();  // a program that waits for its terminal never ends
    pollfd report{news_, POLLIN, 0};
    int status = -1;
    if (poll(&report, 1, 0) > 0 && read(news_, &status, sizeof status) == sizeof status) return status;
  }
  return -1;
}

void OwnTerminal::foreground() const {
  if (write(commands_, "f", 1) != 1) throw std::runtime_error("the parent is gone");
}

bool same_flags(const termios& one, const termios& other) {
  return one.c_iflag == other.c_iflag && one.c_oflag == other.c_oflag && one.c_cflag == other.c_cflag && one.c_lflag == other.c_lflag &&
         std::memcmp(one.c_cc, other.c_cc, sizeof one.c_cc) == 0;
}

}  // namespace ringfall::terminal
