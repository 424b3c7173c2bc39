// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "intake/recording.h"

namespace ringfall::terminal {

/// One line a shot with a header line, RFC 4180; empty cells where a value can't be had. Finding codes are joined by
/// spaces in the last column, the recording's own first.
std::string measure_csv(const std::vector<intake::Recording>& recordings);

}  // namespace ringfall::terminal
