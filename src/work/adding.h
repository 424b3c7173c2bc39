// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "intake/logbook_intake.h"
#include "work/setups.h"

namespace ringfall::work {

/// Where recordings go, and what is said of a set-up that is made for them.
struct Addition {
  intake::BlockPlace place;
  NewSetUp new_setup = NewSetUp::when_unlike;
  std::string changed = {};                     ///< of a new one: what differs from the baseline
  std::optional<double> added_mass_kg = {};     ///< of a new one
};

/// What came of one recording.
struct Kept {
  std::size_t recording = 0;  ///< index
  std::optional<intake::AddedBlock> block;  ///< nullopt: no shot was found, nothing is kept
  bool made_setup = false;                  ///< just before it
  bool made_baseline = false;               ///< and it is the bow's first
};

/// To ask before the long work of measuring. RequestFailure: as is_to_be_made(), or something is said of a new set-up that is there.
void check_addition(const logbook::Logbook& book, const Addition& addition);

/// Keeps recordings measured with `find`, each as a block of the place's session, the set-up made before the first that has a shot. All of them are
/// looked at before anything is kept: none is (nor is the set-up made), when one of them holds sound that is kept already. What is kept is one transaction. `told` of each, once all are kept. Tests: work.Adding.*,
/// terminal.*, desk.*
std::vector<Kept> keep_recordings(logbook::Logbook& book, const std::vector<intake::Recording>& recordings, const shot::FindSettings& find,
                                  const Addition& addition, const std::function<void(const Kept&)>& told = {});

/// Why nothing is kept of a recording without a shot, as far as it is known.
std::string no_shot_sentence(const intake::Recording& recording);

}  // namespace ringfall::work
