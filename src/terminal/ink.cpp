// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/ink.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdlib>

namespace ringfall::terminal {

Ink Ink::for_standard_output() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");
  const bool refused = (no_colour != nullptr && *no_colour != '\0') ||
                       (kind != nullptr && std::string_view(kind) == "dumb");
  return Ink(!refused && isatty(STDOUT_FILENO) == 1);
}

std::string Ink::dress(std::string_view text, std::string_view code) const {
  if (!colour_ || text.empty()) return std::string(text);
  return fmt::format("\x1b[{}m{}\x1b[0m", code, text);
}

}  // namespace ringfall::terminal
