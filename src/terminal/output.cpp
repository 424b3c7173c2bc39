// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/output.h"

#include <fcntl.h>
#include <unistd.h>

#include <cstdio>

#include "base/failure.h"
#include "base/screen_text.h"
#include "terminal/ink.h"

namespace ringfall::terminal {
namespace {

struct Output {
  bool screen = isatty(STDOUT_FILENO) == 1;
  std::FILE* file = stdout;

  Output() {
    const int own = fcntl(STDOUT_FILENO, F_DUPFD_CLOEXEC, 3);
    std::FILE* opened = own >= 0 ? fdopen(own, "w") : nullptr;
    if (opened == nullptr) return;
    file = opened;
    dup2(STDERR_FILENO, STDOUT_FILENO);
  }
};

const Output& output() {
  static const Output kOutput;
  return kOutput;
}

void write_checked(std::string_view text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), output().file) == text.size() && std::ferror(output().file) == 0;
  if (!written) throw FileFailure("the output could not be written; is the disk full?");
}

}  // namespace

void claim_output() { output(); }

bool output_is_screen() { return output().screen; }

void put(std::string_view text) {
  // Each sealed colour ends a part that nobody may have steered.
  const std::string& seal = Ink::seal();
  for (;;) {
    const auto mark = text.find(seal);
    write_checked(screen_text(text.substr(0, mark)));
    if (mark == std::string_view::npos) return;
    text.remove_prefix(mark + seal.size());
    const auto end = text.find('m');
    if (end == std::string_view::npos) return;
    write_checked("\x1b[" + std::string(text.substr(0, end + 1)));
    text.remove_prefix(end + 1);
  }
}

void put_data(std::string_view text) {
  write_checked(output().screen ? screen_text(text) : std::string(text));
}

void put_control(std::string_view text) { write_checked(text); }

void flush_output() {
  if (std::fflush(output().file) != 0) write_checked("");
}

void finish_output() {
  // A block that could not be written is thrown away: the next flush says nothing of it, the stream's mark does.
  const bool flushed = std::fflush(output().file) == 0;
  if (!flushed || std::ferror(output().file) != 0) throw FileFailure("the output could not be written; is the disk full?");
}

void complain(std::string_view text) {
  const std::string safe = screen_text(text);
  std::fwrite(safe.data(), 1, safe.size(), stderr);
}

}  // namespace ringfall::terminal
