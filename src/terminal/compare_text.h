// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "compare/comparison.h"
#include "terminal/ink.h"

namespace ringfall::terminal {

/// A comparison as tables for people: the main number first with its sentence, then all numbers a set-up, then doubts.
std::string compare_text(const compare::Comparison& comparison, const Ink& ink);

}  // namespace ringfall::terminal
