// SPDX-License-Identifier: GPL-3.0-or-later
#include "desk/parts/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "base/units.h"

namespace ringfall::desk {

std::string distance_words(double distance_m, bool archers) {
  return archers ? fmt::format("{:.1f} yd", distance_m / kYard_m) : fmt::format("{:.1f} m", distance_m);
}

std::string speed_words(double speed_m_s, bool archers) {
  return archers ? fmt::format("{:.0f} ft/s", speed_m_s / kFoot_m) : fmt::format("{:.1f} m/s", speed_m_s);
}

std::string mass_words(double mass_kg, bool archers) {
  return archers ? fmt::format("{:.0f} gr", mass_kg / kGrain_kg) : fmt::format("{:.0f} g", 1000.0 * mass_kg);
}

std::string temperature_words(double temperature_c, bool archers) {
  return archers ? fmt::format("{:.0f} F", 32.0 + 1.8 * temperature_c) : fmt::format("{:.0f} C", temperature_c);
}

std::string value_words(const shot::Number& number, const shot::Shot& shot) {
  const auto value = number.of(shot);
  // Three figures of a large number: the next is not even the same in the next shot.
  return plain_number(value, value && std::abs(*value) >= 10.0 ? std::min(number.decimals, 1) : number.decimals);
}

std::string said_words(const logbook::Comment& comment) {
  std::string text;
  const auto add = [&](const char* name, const std::optional<double>& value) {
    if (value) text += fmt::format("{}{} {:.0f}", text.empty() ? "" : ", ", name, *value);
  };
  add("loud", comment.loud);
  add("hum", comment.hum);
  add("ping", comment.ping);
  add("feel", comment.feel);
  if (!text.empty() && !comment.words.empty()) text += ": ";
  return text + comment.words;
}

std::string said_words(const std::vector<logbook::Comment>& comments) {
  std::string text;
  for (const auto& comment : comments) text += (text.empty() ? "" : "; ") + said_words(comment);
  return text;
}

bool numbers_shown(const logbook::KeptBlock& block, const logbook::KeptShot& shot, bool words_first) {
  if (!words_first) return !logbook::numbers_hidden(block, shot);
  return !shot.comments.empty() || !block.comments.empty();
}

}  // namespace ringfall::desk
