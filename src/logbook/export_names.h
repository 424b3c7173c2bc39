// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>

/// Where things lie in an export.
namespace ringfall::logbook::export_names {

inline constexpr const char* kTables = "tables";
inline constexpr const char* kSounds = "sounds";
inline constexpr const char* kVersionTable = "logbook.csv";
inline std::string sound_name(std::int64_t shot_id, const std::string& coding) {
  return "shot-" + std::to_string(shot_id) + "." + coding;
}

}  // namespace ringfall::logbook::export_names
