// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "compare/session.h"
#include "intake/recording.h"
#include "terminal/requests.h"

namespace ringfall::terminal {

/// A session's recordings, measured and put together with its plan.
struct MeasuredSession {
  compare::Session session;
  std::vector<intake::Recording> recordings;  ///< one a block that could be used, in the session's order
  std::vector<std::string> complaints;
  shot::Settings settings;
  std::string logbook;  ///< where the session is from one: its file; recordings is empty then
};

/// Measures every recording of a plan (comments are joined by shot number). FileFailure: two
/// recordings that count hold one shot.
MeasuredSession measure_session(const compare::SessionPlan& plan, const HearRequest& request);

}  // namespace ringfall::terminal
