// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/null_sink.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <initializer_list>
#include <stdexcept>
#include <vector>

namespace ringfall {
namespace {

pid_t start(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const auto& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  posix_spawn_file_actions_addopen(&quiet, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&quiet, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int error = posix_spawnp(&child, arguments[0], &quiet, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&quiet);
  if (error != 0) throw std::runtime_error("can't start " + words[0]);
  return child;
}

bool runs_well(const std::vector<std::string>& words) {
  int status = 1;
  waitpid(start(words), &status, 0);
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

void end(pid_t& child, int signal) {
  if (child == 0) return;
  kill(child, SIGCONT);
  kill(child, signal);
  waitpid(child, nullptr, 0);
  child = 0;
}

}  // namespace

bool NullSink::possible() {
  return std::system("command -v pulseaudio >/dev/null && command -v paplay >/dev/null && command -v pactl >/dev/null") == 0;
}

NullSink::NullSink() {
  for (const char* name : {"run", "run/pulse", "home", "state"}) mkdir(folder_.path(name).c_str(), 0700);
  const auto set = [this](const char* name, const std::string& value) {
    const char* before = std::getenv(name);
    before_.emplace_back(name, before == nullptr ? std::nullopt : std::optional<std::string>(before));
    setenv(name, value.c_str(), 1);
  };
  set("HOME", folder_.path("home"));
  set("XDG_CONFIG_HOME", folder_.path("home"));
  set("XDG_RUNTIME_DIR", folder_.path("run"));
  set("PULSE_RUNTIME_PATH", folder_.path("run/pulse"));
  set("PULSE_STATE_PATH", folder_.path("state"));
  set("PULSE_SERVER", "unix:" + folder_.path("run/pulse/native"));
  set("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nonexistent");
  // PortAudio gives up when every device of the configuration opens, so there is a null one too.
  std::ofstream(folder_.path("alsa.conf")) << "pcm.probe_mon { type pulse device \"probe.monitor\" }\n"
                                           << "pcm.probe_out { type pulse device \"probe\" }\n"
                                           << "pcm.default { type null }\n";
  set("ALSA_CONFIG_PATH", folder_.path("alsa.conf"));
  start_server();
}

NullSink::~NullSink() {
  end(player_, SIGKILL);
  end(server_, SIGTERM);
  // The folder goes; what it told the sound libraries must not stay for the tests that come after.
  for (const auto& [name, value] : before_) {
    if (value) {
      setenv(name, value->c_str(), 1);
    } else {
      unsetenv(name);
    }
  }
}

void NullSink::start_server() {
  // norewinds: else the head of a recording is lost.
  server_ = start({"pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no", "--realtime=no",
                   "--high-priority=no", "--disable-shm=yes", "--log-level=error", "-L",
                   "module-native-protocol-unix socket=" + folder_.path("run/pulse/native") + " auth-anonymous=1", "-L",
                   "module-null-sink sink_name=probe rate=48000 channels=1 channel_map=mono format=float32le norewinds=1"});
  for (int k = 0; k < 200; ++k) {
    if (runs_well({"pactl", "info"})) return;
    usleep(50000);
  }
  throw std::runtime_error("the private sound server does not answer");
}

void NullSink::play(const std::string& path) {
  end(player_, SIGKILL);
  player_ = start({"paplay", "--device=probe", path});
}

void NullSink::wait_for_player() {
  if (player_ != 0) waitpid(player_, nullptr, 0);
  player_ = 0;
}

void NullSink::kill_server() { end(server_, SIGKILL); }

void NullSink::freeze_server(bool freeze) { kill(server_, freeze ? SIGSTOP : SIGCONT); }

void NullSink::suspend(bool suspend) { runs_well({"pactl", "suspend-sink", "probe", suspend ? "1" : "0"}); }

}  // namespace ringfall
