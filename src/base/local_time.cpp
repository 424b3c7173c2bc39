// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/local_time.h"

#include <fmt/format.h>

#include <ctime>

namespace ringfall {

std::string local_time_text(std::string_view utc) {
  std::tm said{};
  const std::string text(utc);
  const char* end = strptime(text.c_str(), "%Y-%m-%dT%H:%M:%SZ", &said);
  if (end == nullptr || *end != '\0') return text;
  const std::time_t at = timegm(&said);
  std::tm local{};
  localtime_r(&at, &local);
  return fmt::format("{:04d}-{:02d}-{:02d} {:02d}:{:02d}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday, local.tm_hour, local.tm_min);
}

std::string local_day_text(std::string_view utc) { return local_time_text(utc).substr(0, 10); }

}  // namespace ringfall
