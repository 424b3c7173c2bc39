// SPDX-License-Identifier: GPL-3.0-or-later
#include "terminal/value_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <string_view>

#include "base/failure.h"
#include "logbook/names.h"

namespace ringfall::terminal {
namespace {

constexpr std::array<std::string_view, 7> kPlaces = {"FILE", "FOLDER", "LOGBOOK", "FOLDER-OR-TABLE", "DEVICE", "REASON", "DATE"};
constexpr std::array<std::string_view, 2> kNames = {"NAME", "SETUP"};
constexpr std::array<std::string_view, 3> kCounts = {"N", "SHOT", "BLOCK"};
constexpr std::array<std::string_view, 8> kNumbers = {"DB", "HZ", "TIMES", "SECONDS", "VALUE", "0..1", "PERCENT", "KPA"};

template <typename Number>
std::optional<Number> read_whole(const std::string& typed) {
  Number value{};
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), value);
  return error == std::errc() && end == typed.data() + typed.size() ? std::optional(value) : std::nullopt;
}

std::string complain_of_empty(const std::string& typed) {
  return typed.find_first_not_of(' ') == std::string::npos ? "this is empty; give a name" : "";
}

std::string complain_of_name(const std::string& typed) {
  try {
    logbook::need_name(typed, "bow or set-up");
  } catch (const RequestFailure& refused) {
    return refused.what();
  }
  return "";
}

std::string complain_of_number(const std::string& typed) {
  if (typed == "none") return "";  // takes a value away
  const auto value = read_whole<double>(typed);
  return value && std::isfinite(*value) ? "" : fmt::format("'{}' is not a number", typed);
}

std::string complain_of_count(const std::string& typed) {
  const auto value = read_whole<std::int64_t>(typed);
  return value && *value >= 1 ? "" : fmt::format("'{}' must be a whole number from 1", typed);
}

}  // namespace

ValueCheck check_for_kind(const std::string& kind) {
  const auto is_in = [&kind](const auto& kinds) { return std::ranges::find(kinds, kind) != kinds.end(); };
  if (is_in(kPlaces)) return complain_of_empty;
  if (is_in(kNames)) return complain_of_name;
  if (is_in(kCounts)) return complain_of_count;
  if (is_in(kNumbers)) return complain_of_number;
  return nullptr;
}

ValueCheck check_whole_number(std::int64_t low, std::int64_t high) {
  return [low, high](const std::string& typed) {
    const auto value = read_whole<std::int64_t>(typed);
    if (value && *value >= low && *value <= high) return std::string();
    return fmt::format("'{}' must be a whole number from {} to {}", typed, low, high);
  };
}

ValueCheck check_number_between(double low, double high) {
  return [low, high](const std::string& typed) {
    const auto value = read_whole<double>(typed);
    if (value && *value >= low && *value <= high) return std::string();
    return fmt::format("'{}' must be a number from {:g} to {:g}", typed, low, high);
  };
}

}  // namespace ringfall::terminal
