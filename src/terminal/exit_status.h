// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::terminal {

/// Exit status of every verb.
enum ExitStatus : int {
  kDone = 0,
  kNotMeasured = 1,   ///< done, but something asked for could not be measured, or no shot was found
  kBadCommand = 2,    ///< the command line was wrong
  kUnusable = 3,      ///< a file, device or logbook could not be used
};

}  // namespace ringfall::terminal
