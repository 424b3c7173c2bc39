// SPDX-License-Identifier: GPL-3.0-or-later
// `listen` on a terminal of its own: however it ends, the terminal is as it was (POSIX termios).
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <csignal>

#include "support/made_session.h"
#include "support/null_sink.h"
#include "support/test_folder.h"
#include "terminal/own_terminal.h"

namespace ringfall::terminal {
namespace {

class ListenTerminal : public testing::Test {
 protected:
  ListenTerminal() {
    made_logbook(folder_.path("book"), 18.0);
    audio::write_wav(folder_.path("a.wav"), made_session(12).samples, kSessionRate_hz, audio::SampleCoding::wav_24_bit);
  }
  /// A minute of sound as in life.
  OwnTerminal listening() const {
    return OwnTerminal({RINGFALL_PROGRAM, "listen", folder_.path("book"), "--setup", "bare", "--from", folder_.path("a.wav"), "--speed", "1"});
  }
  static void expect_keys_taken(const OwnTerminal& terminal) {
    const termios now = terminal.flags();
    EXPECT_FALSE(now.c_lflag & (ICANON | ECHO)) << "single keys, not shown";
    EXPECT_TRUE(now.c_lflag & ISIG) << "Ctrl-C and Ctrl-Z";
    EXPECT_TRUE(now.c_oflag & OPOST) << "lines begin at the left";
  }

  const TestFolder folder_;
};

struct Ending {
  const char* name;
  const char* keys;
  int signal;
  bool well;  ///< the program ends by itself
};

class ListenTerminalEnds : public ListenTerminal, public testing::WithParamInterface<Ending> {};

TEST_P(ListenTerminalEnds, AndTheTerminalIsAsItWas) {
  OwnTerminal terminal = listening();
  const termios before = terminal.before();
  EXPECT_TRUE(before.c_lflag & ECHO);
  ASSERT_TRUE(terminal.printed("Listening to")) << terminal.text();
  expect_keys_taken(terminal);
  terminal.type(GetParam().keys);
  if (GetParam().signal != 0) kill(terminal.program(), GetParam().signal);
  const int status = terminal.status();
  ASSERT_NE(status, -1) << "it goes on";
  if (GetParam().well) {
    EXPECT_TRUE(WIFEXITED(status)) << status;
  } else {
    EXPECT_FALSE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  }
  EXPECT_TRUE(same_flags(before, terminal.flags()));
}

INSTANTIATE_TEST_SUITE_P(Ways, ListenTerminalEnds,
                         testing::Values(Ending{"ByQ", "q", 0, true}, Ending{"ByCtrlC", "\x03", 0, true},
                                         Ending{"ByARequest", "", SIGTERM, true}, Ending{"ByAQuitKey", "\x1c", 0, false},
                                         Ending{"ByAFault", "", SIGSEGV, false}, Ending{"ByAnAbort", "", SIGABRT, false}),
                         [](const auto& chosen) { return std::string(chosen.param.name); });

TEST_F(ListenTerminal, IsGivenBackWhileItIsStopped) {
  OwnTerminal terminal = listening();
  const termios before = terminal.before();
  ASSERT_TRUE(terminal.printed("armed")) << terminal.text();
  for (int round = 0; round < 2; ++round) {
    terminal.type("\x1a");
    const int status = terminal.status();
    ASSERT_TRUE(status != -1 && WIFSTOPPED(status)) << status;
    EXPECT_TRUE(same_flags(before, terminal.flags())) << "stopped";
    terminal.foreground();
    // It answers to keys again.
    terminal.type(" ");
    ASSERT_TRUE(terminal.printed(round == 0 ? "Paused" : "Armed")) << terminal.text();
    expect_keys_taken(terminal);
  }
  terminal.type("q");
  EXPECT_TRUE(WIFEXITED(terminal.status()));
  EXPECT_TRUE(same_flags(before, terminal.flags())) << "ended";
}

TEST_F(ListenTerminal, IsAsItWasAfterACrashOfTheSoundServer) {
  if (!NullSink::possible()) GTEST_SKIP() << "no pulseaudio, paplay and pactl here";
  NullSink sink;
  OwnTerminal terminal({RINGFALL_PROGRAM, "listen", folder_.path("book"), "--setup", "bare", "--device", kNullMicrophone});
  const termios before = terminal.before();
  ASSERT_TRUE(terminal.printed("Listening to")) << terminal.text();
  sink.kill_server();
  ASSERT_TRUE(terminal.printed("no more sound comes from it")) << terminal.text();
  terminal.type("q");
  EXPECT_TRUE(WIFEXITED(terminal.status()));
  EXPECT_TRUE(same_flags(before, terminal.flags()));
}

}  // namespace
}  // namespace ringfall::terminal
