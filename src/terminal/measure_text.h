// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "intake/recording.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// A recording's shots as a table for people: one line a shot, the tones below, findings as sentences at the end.
std::string measure_text(const intake::Recording& recording, const Ink& ink);

}  // namespace ringfall::terminal
