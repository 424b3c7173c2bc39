// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "shot/shot.h"

namespace ringfall::logbook {

/// What of a shot is neither a single number nor a tone, as JSON text: {"hits", "bands", "buzz"}. Every value comes back
/// exactly. Tested: logbook.ShotDetails.*
std::string details_text(const shot::Shot& shot);
/// Puts it back. Text that is no such JSON (a newer program's, or none) leaves what it does not hold empty.
void read_details(const std::string& text, shot::Shot& shot);

}  // namespace ringfall::logbook
