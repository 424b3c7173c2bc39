// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "compare/season.h"

namespace ringfall::work {

/// A logbook over its sessions.
struct Season {
  compare::Session session;  ///< with the tones of each set-up of each session pooled
  std::vector<compare::SetUpSeason> setups;
  std::vector<std::vector<std::string>> changes;  ///< one a set-up: what changed on its bow meanwhile (bow_changes)
};

/// Listens to every shot that counts, of one bow or of all. nullopt: `go_on` stopped it. RequestFailure: no such bow. LogbookFailure as
/// compare::logbook_session.
std::optional<Season> read_season(const logbook::Logbook& book, const std::optional<std::string>& bow, const std::function<bool()>& go_on = {});

}  // namespace ringfall::work
