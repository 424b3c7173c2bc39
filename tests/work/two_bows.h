// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "logbook/logbook.h"
#include "support/test_folder.h"

namespace ringfall::work {

/// A logbook with two made-up bows: "recurve" with "bare" and "damped", "longbow" with "bare" and "quiet"; the last session is the longbow's.
inline logbook::Logbook two_bows(const std::string& path) {
  logbook::Conditions conditions;
  conditions.bow = "recurve";
  conditions.started_at = "2026-05-01T10:00:00Z";
  conditions.full_scale_db_spl = 118.0;
  auto book = logbook::Logbook::start(path, conditions);
  book.add_setup({"bare", "", false, std::nullopt});
  book.add_setup({"damped", "", false, std::nullopt});
  book.add_bow({"longbow"});
  conditions.bow = "longbow";
  conditions.started_at = "2026-06-01T10:00:00Z";
  book.start_session(conditions);
  book.add_setup({"bare", "", false, std::nullopt, "longbow"});
  book.add_setup({"quiet", "", false, std::nullopt, "longbow"});
  return book;
}

/// A block with shots that have numbers but whose sound is none.
inline std::int64_t add_numbers(logbook::Logbook& book, std::int64_t session, const std::string& setup, const std::vector<double>& exposures_db) {
  const auto block = book.add_block({setup, setup + ".wav", 48000.0, "", "", {}, session});
  for (const double exposure_db : exposures_db) {
    logbook::CodedClip clip{0, 1.0, "flac", std::to_string(block) + "/" + std::to_string(exposure_db), {}};
    clip.places = {{}, 48000.0, 0, 48000, 0.0, std::nullopt, std::nullopt};
    shot::Shot shot;
    shot.levels.exposure_db = exposure_db;
    book.set_numbers(book.add_clip(block, clip), shot, "0.0");
  }
  return block;
}

}  // namespace ringfall::work
