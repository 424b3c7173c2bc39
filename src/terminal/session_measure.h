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

/// Reads the plan at `source`, measures every recording in it (comments are joined by shot number).
MeasuredSession measure_session(const std::string& source, const HearRequest& request);

}  // namespace ringfall::terminal
