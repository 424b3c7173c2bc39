// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "compare/tone_pool.h"
#include "logbook/logbook.h"
#include "terminal/session_measure.h"

namespace ringfall::terminal {

/// Listens to every tail of the session once more, finds each set-up's tones in all its tails together, and sets hum and ping of the
/// session's shots to that reading. Reads the recordings again, one shot's sound in memory at a time.
/// FileFailure: a recording has gone meanwhile.
std::vector<compare::SetUpTones> pooled_tones(MeasuredSession& measured);

/// The same for a session that is a logbook's, from the clips it keeps.
std::vector<compare::SetUpTones> pooled_tones(compare::Session& session, const logbook::Logbook& book);

}  // namespace ringfall::terminal
