// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>

#include "compare/season_pool.h"
#include "logbook/logbook.h"

namespace ringfall::work {

/// The kept sound of a logbook's shots in a session read from it, each with the scale of its own session. `go_on` is asked before each and may
/// stop it. Both must outlive what is returned. LogbookFailure when it is called: the sound can't be read.
compare::ClipOf kept_sounds(const logbook::Logbook& book, const compare::Session& session, std::function<bool()> go_on = {});

}  // namespace ringfall::work
