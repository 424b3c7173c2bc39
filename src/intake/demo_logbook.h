// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>

namespace ringfall::intake {

/// The invented evening (demo_evening.h), synthesised, measured and kept as a logbook at `path`, words and all. Always the same but
/// for its date. `go_on` hears the share done (0 .. 1) and stops it with false: then nothing is left and false comes back.
/// LogbookFailure: the file exists, or can't be written. Tested: desk.Desk.*
bool make_demo_logbook(const std::string& path, const std::function<bool(double)>& go_on);

}  // namespace ringfall::intake
