// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "terminal/requests.h"

namespace ringfall::terminal {

/// The command line asked for words (help, version) or was wrong: print `text` (to standard output when `status` is 0,
/// else to standard error) and leave with `status`.
struct Answer {
  int status = 0;
  std::string text;
};

/// Understands the arguments after the program's name. Never prints, never exits.
std::variant<Request, Answer> read_command_line(std::vector<std::string> arguments);

}  // namespace ringfall::terminal
