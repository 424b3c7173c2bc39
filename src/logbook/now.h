// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

namespace ringfall::logbook {

/// SQL for the time of day: UTC, ISO 8601, whole seconds.
inline constexpr const char* kNow = "strftime('%Y-%m-%dT%H:%M:%SZ', 'now')";

/// An empty reason is none.
inline std::optional<std::string> reason_of(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(text);
}

}  // namespace ringfall::logbook
