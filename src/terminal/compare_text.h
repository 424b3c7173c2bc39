// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>

#include "compare/comparison.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// A comparison for a terminal: the answer (answer_text.h) and, with `all`, a table of all numbers, what became of the tones, how it was
/// shot and words against numbers. No line is longer than `width` but where a single word or cell is.
std::string compare_text(const compare::Comparison& comparison, const compare::Session& session, bool all, std::size_t width, const Ink& ink);

}  // namespace ringfall::terminal
