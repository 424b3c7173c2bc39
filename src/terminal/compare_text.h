// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "compare/comparison.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// A comparison for a terminal: verdicts first, then a table of all numbers, what became of the tones, how it was shot, words against
/// numbers, doubts.
std::string compare_text(const compare::Comparison& comparison, const compare::Session& session, const Ink& ink);

}  // namespace ringfall::terminal
