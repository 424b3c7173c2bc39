// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

namespace ringfall::terminal {

/// Colour on a terminal, plain text everywhere else. Off when standard output is no terminal, TERM is "dumb" or
/// NO_COLOR is set (to anything but nothing).
class Ink {
 public:
  explicit Ink(bool colour) : colour_(colour) {}
  static Ink for_standard_output();
  /// What begins a colour on its way to put(), which alone turns it into one: random, so that no foreign word holds it.
  static const std::string& seal();

  std::string strong(std::string_view text) const { return dress(text, "1"); }
  std::string quiet(std::string_view text) const { return dress(text, "2"); }
  std::string caution(std::string_view text) const { return dress(text, "33"); }
  std::string stop(std::string_view text) const { return dress(text, "31"); }

 private:
  std::string dress(std::string_view text, std::string_view code) const;
  bool colour_;
};

}  // namespace ringfall::terminal
