// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/text.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>

namespace ringfall {
namespace {

/// Three significant figures without an exponent for 0.01 .. 9999.
std::string three_figures(double value) {
  const double size = std::abs(value);
  const int decimals = size >= 99.95 ? 0 : size >= 9.995 ? 1 : 2;
  return fmt::format("{:.{}f}", value, decimals);
}

}  // namespace

std::string plain_number(std::optional<double> value, int decimals) {
  if (!value) return "-";
  std::string text = fmt::format("{:.{}f}", *value, decimals);
  // A rounded negative zero reads as a mistake.
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string with_unit(std::optional<double> value, const char* unit, int decimals) {
  if (!value) return "-";
  return plain_number(value, decimals) + " " + unit;
}

std::string frequency_text(double frequency_hz) {
  if (frequency_hz >= 999.5) return three_figures(frequency_hz / 1000.0) + " kHz";
  return three_figures(frequency_hz) + " Hz";
}

std::string duration_text(double duration_s) {
  if (std::abs(duration_s) < 0.9995) return three_figures(duration_s * 1000.0) + " ms";
  return three_figures(duration_s) + " s";
}

std::string clock_text(double time_s) {
  const auto rounded = static_cast<std::int64_t>(std::llround(time_s * 100.0));
  const char* sign = rounded < 0 ? "-" : "";
  const std::int64_t hundredths = std::abs(rounded);
  const std::int64_t seconds = hundredths / 100;
  const std::int64_t minutes = seconds / 60;
  const std::int64_t hours = minutes / 60;
  if (hours > 0) {
    return fmt::format("{}{}:{:02}:{:02}.{:02}", sign, hours, minutes % 60, seconds % 60,
                       hundredths % 100);
  }
  return fmt::format("{}{}:{:02}.{:02}", sign, minutes, seconds % 60, hundredths % 100);
}

std::string counted(std::size_t count, const char* thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

std::string shell_word(const std::string& text) {
  constexpr const char* kPlain = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./+:@%,";
  if (!text.empty() && text.find_first_not_of(kPlain) == std::string::npos) return text;
  std::string word = "'";
  for (const char letter : text) word += letter == '\'' ? std::string("'\\''") : std::string(1, letter);
  return word + "'";
}

}  // namespace ringfall
