// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/ink.h"

#include <fmt/format.h>

#include <cstdlib>
#include <random>

#include "terminal/output.h"

namespace ringfall::terminal {

Ink Ink::for_standard_output() {
  const char* no_colour = std::getenv("NO_COLOR");
  const char* kind = std::getenv("TERM");
  const bool refused = (no_colour != nullptr && *no_colour != '\0') ||
                       (kind != nullptr && std::string_view(kind) == "dumb");
  return Ink(!refused && output_is_screen());
}

const std::string& Ink::seal() {
  static const std::string kSeal = [] {
    std::random_device chance;
    return fmt::format("\x1b{:08x}{:08x}", chance(), chance());
  }();
  return kSeal;
}

std::string Ink::dress(std::string_view text, std::string_view code) const {
  if (!colour_ || text.empty()) return std::string(text);
  return fmt::format("{0}{1}m{2}{0}0m", seal(), code, text);
}

}  // namespace ringfall::terminal
