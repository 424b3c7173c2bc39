// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace ringfall::desk {

/// Where a shot stands in a logbook.
struct ShotAt {
  std::size_t block = 0;
  std::size_t shot = 0;
};

/// All that views show of a logbook, read at one moment; never changed afterwards.
struct BookSheet {
  std::string path;
  logbook::Conditions conditions;                 ///< of the last session
  std::vector<logbook::Conditions> sessions;      ///< all of them
  std::vector<logbook::SetUp> setups;
  std::vector<logbook::KeptBlock> blocks;
  std::vector<ShotAt> shots;  ///< all of them, in shooting order
  std::vector<std::int64_t> hidden;  ///< ids of those that count and whose numbers a blind session hides
  std::size_t older = 0;      ///< how many were measured by another version

  const logbook::KeptShot& shot(const ShotAt& at) const { return blocks[at.block].shots[at.shot]; }
  const logbook::KeptBlock& block(const ShotAt& at) const { return blocks[at.block]; }
  /// Place in `shots`.
  std::optional<std::size_t> index_of(std::int64_t shot_id) const;
  /// Place in `setups`; its ink and marker go by it.
  std::size_t setup_index(const std::string& name) const;
  /// Of the block's own session.
  const logbook::Conditions& conditions_of(const logbook::KeptBlock& block) const;
  std::string level_reference(const logbook::KeptBlock& block) const {
    return conditions_of(block).full_scale_db_spl ? "re 20 uPa" : "re full scale";
  }
};

std::shared_ptr<const BookSheet> read_book(const logbook::Logbook& logbook, const std::string& path);

}  // namespace ringfall::desk
