// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "logbook/logbook.h"

namespace ringfall::terminal {

/// What a logbook holds as one JSON object (docs/output.md), null where there is no value. Ends with a newline.
std::string list_json(const logbook::Logbook& book);

}  // namespace ringfall::terminal
