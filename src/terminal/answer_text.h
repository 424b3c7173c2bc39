// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>

#include "compare/comparison.h"
#include "compare/session.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// The answer, about a screen of it: quieter? hum? ping? what else changed, how sure, what next, doubts. No line is longer than `width`.
/// `all`: every doubt, else the first few and their number. Tests: terminal.CompareOutput.*
std::string answer_page(const compare::Comparison& comparison, const compare::Session& session, bool all, std::size_t width, const Ink& ink);

}  // namespace ringfall::terminal
