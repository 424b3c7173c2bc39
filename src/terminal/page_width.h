// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace ringfall::terminal {

/// Columns that standard output has: those of its terminal, else what COLUMNS says, else 80; never under 40.
std::size_t page_width();

}  // namespace ringfall::terminal
