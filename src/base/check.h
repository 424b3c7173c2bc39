// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <source_location>
#include <string_view>

namespace ringfall {

/// Always-on assert for a broken promise between parts of the program (never for bad data or bad input).
/// Throws InternalError naming the place; the faces print it and leave with a failure status.
void check(bool promise, std::string_view what,
           std::source_location where = std::source_location::current());

}  // namespace ringfall
