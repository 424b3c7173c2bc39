// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>

#include "compare/session.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// What was said against what was measured, for a terminal; empty when nothing was said.
std::string compare_words_text(const compare::Session& session, const std::string& main_number, std::size_t width, const Ink& ink);

}  // namespace ringfall::terminal
