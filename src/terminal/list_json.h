// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "logbook/logbook.h"

namespace ringfall::terminal {

/// A logbook as JSON, without the sound. The first level tells of the last session; "sessions" has them all. Numbers that
/// are hidden (a blind session before the comment) are null, with "hidden": true. Always SI.
std::string list_json(const logbook::Logbook& book);
std::string bows_json(const std::vector<logbook::Bow>& bows);
std::string setups_json(const std::vector<logbook::SetUp>& setups);
/// One shot with everything measured of it.
std::string show_json(const logbook::KeptBlock& block, const logbook::KeptShot& kept);

}  // namespace ringfall::terminal
