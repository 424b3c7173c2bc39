// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/chrono.h>
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <ctime>

#include "base/failure.h"
#include "terminal/typed_units.h"

namespace ringfall::terminal {
namespace {

[[noreturn]] void refuse_date(const std::string& typed) {
  throw RequestFailure(fmt::format("--date: '{}' is no date; write it like 2026-10-03, or 2026-10-03T18:30 with the time", typed));
}

/// Digits where `form` has a 0, its other letters as they are.
bool has_form(const std::string& typed, const std::string& form) {
  return typed.size() == form.size() && std::ranges::equal(typed, form, [](char is, char wanted) {
    return wanted == '0' ? is >= '0' && is <= '9' : is == wanted;
  });
}

/// nullopt: the calendar has no such day or the clock no such time.
std::optional<std::tm> real_date(std::tm said) {
  std::tm normal = said;
  normal.tm_isdst = -1;
  if (std::mktime(&normal) == -1) return std::nullopt;
  const bool same = normal.tm_year == said.tm_year && normal.tm_mon == said.tm_mon && normal.tm_mday == said.tm_mday;
  return same && said.tm_hour < 24 && said.tm_min < 60 ? std::optional(said) : std::nullopt;
}

}  // namespace

std::string parse_date(const std::string& typed) {
  const bool timed = has_form(typed, "0000-00-00T00:00");
  if (!timed && !has_form(typed, "0000-00-00")) refuse_date(typed);
  const auto number = [&](std::size_t at, std::size_t length) { return std::stoi(typed.substr(at, length)); };
  std::tm said{};
  said.tm_year = number(0, 4) - 1900;
  said.tm_mon = number(5, 2) - 1;
  said.tm_mday = number(8, 2);
  said.tm_hour = timed ? number(11, 2) : 12;
  said.tm_min = timed ? number(14, 2) : 0;
  said.tm_isdst = -1;
  if (said.tm_year < 0 || said.tm_mon < 0 || said.tm_mon > 11 || !real_date(said)) refuse_date(typed);
  const std::time_t now = std::time(nullptr);
  std::time_t at = std::mktime(&said);
  // A day is to come when it is neither over nor today by this computer's clock.
  const std::string today = fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
  if (timed ? at > now : typed > today) {
    throw RequestFailure(fmt::format("--date: {} is yet to come; a session is dated when it was shot", typed));
  }
  at = std::min(at, now);
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(at));
}

}  // namespace ringfall::terminal
