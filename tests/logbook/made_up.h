// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "logbook/logbook.h"
#include "support/test_folder.h"

namespace ringfall::logbook {

inline Conditions made_up_conditions() { return {"made-up bow", "", "made-up hall", 18.0, 15.0, "made-up microphone", 118.0}; }

/// A logbook with one set-up and one block, number 1.
inline Logbook made_up_logbook(const std::string& path) {
  Logbook book = Logbook::start(path, made_up_conditions());
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_block({"bare", "a.wav", 48000.0, "", "", {}});
  return book;
}

/// A logbook of an older version, as its program made it: tests/data/logbook_version_N.sql.
inline void make_old_logbook(const std::string& path, std::int64_t version) {
  std::ifstream dump(std::string(RINGFALL_TEST_DATA) + "/logbook_version_" + std::to_string(version) + ".sql", std::ios::binary);
  if (!dump) throw std::runtime_error("the dump of version " + std::to_string(version) + " is missing");
  const std::string sql(std::istreambuf_iterator<char>(dump), {});
  std::ofstream(path).close();
  Database(path, Database::Access::just_made).run("PRAGMA foreign_keys = OFF; BEGIN; " + sql + "COMMIT");
}

/// A clip of `size` bytes that only this number has.
inline CodedClip made_up_clip(int number, std::size_t size = 3000) {
  CodedClip clip{number, 2.5 * number, "flac", std::string(size, '\0'), {}};
  for (std::size_t k = 0; k < size; ++k) clip.bytes[k] = static_cast<char>((k * 31 + static_cast<std::size_t>(number) * 7) & 0xFF);
  clip.places = {{}, 48000.0, 120000LL * number, 120000LL * number + 38400, 0.25, 120000LL * number + 55000, std::nullopt};
  return clip;
}

}  // namespace ringfall::logbook
