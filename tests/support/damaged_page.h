// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <fstream>
#include <string>

namespace ringfall {

/// Overwrites one page in the middle of a shot's sound in a logbook's file (page size 4096). Such a page begins with the number of the row's next
/// page, counted from 1 ("Database File Format" 1.6, "Cell Payload Overflow Pages"; a row's last one begins with 0), so the rest of the row can't be
/// found afterwards. The page taken is the first from the middle of the file on whose next one lies behind it.
inline void damage_a_sound(const std::string& path) {
  std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
  const auto next_of = [&file](std::streamoff page) {
    std::streamoff number = 0;
    file.seekg(page * 4096);
    for (int k = 0; k < 4; ++k) number = 256 * number + file.get();
    return number;
  };
  auto page = static_cast<std::streamoff>(std::filesystem::file_size(path)) / 2 / 4096;
  while (file && next_of(page) != page + 2) ++page;
  file.seekp(page * 4096);
  file << std::string(4096, '\xA5');
}

}  // namespace ringfall
